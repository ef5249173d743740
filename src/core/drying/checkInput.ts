import { plus } from './clay.ts'
import type { ClayDrying, CoverSpan, PartClass, Uncertain } from './types.ts'

/** Why something about clay, a part or covers cannot be reckoned with; `field` says what, with its usual range. */
export type InputFault = {
  readonly code: 'not-a-number' | 'out-of-range' | 'shrinkage-ends-above-start' | 'no-cover-spans' | 'spans-do-not-rise'
  readonly params: Readonly<Record<string, string | number>>
}

type Range = readonly [low: number, high: number]

/** What each property of a body can be; wider than what any body has, so that only slips of the pen are refused. */
const clayRanges: Readonly<Record<keyof ClayDrying, Range>> = {
  startMoistureDb: [0.12, 0.6],
  endOfShrinkageDb: [0.03, 0.4],
  oswinA: [0.002, 0.06],
  oswinB: [0.2, 0.7],
  wetDiffusivityM2S: [1e-11, 1e-6],
  diffusivityFall: [0, 10],
  vapourPermeability: [1e-13, 2e-10],
  rimFactor: [1, 4],
  feelShiftDb: [-0.04, 0.04],
}
/** No belief strays by more than this: of its own unit's range, or a factor of e^1.5. */
const WIDEST_LOG_SPREAD = 1.5

/** What is wrong with a clay body's numbers, all of it; empty when nothing is. */
export function clayFaults(clay: ClayDrying): InputFault[] {
  const faults = Object.entries(clayRanges).flatMap(([field, range]) =>
    beliefFaults(field, clay[field as keyof ClayDrying], range),
  )
  if (faults.length === 0 && clay.endOfShrinkageDb.value >= clay.startMoistureDb.value) {
    const params = { endDb: clay.endOfShrinkageDb.value, startDb: clay.startMoistureDb.value }
    faults.push({ code: 'shrinkage-ends-above-start', params })
  }
  return faults
}

function beliefFaults(
  field: string,
  { value, spread, kind }: Uncertain = plus(NaN, 0),
  [low, high]: Range,
): InputFault[] {
  const widest = kind !== 'plus' ? WIDEST_LOG_SPREAD : high - low
  return [...rangeFaults(field, value, [low, high]), ...rangeFaults(`${field}.spread`, spread, [0, widest])]
}

function rangeFaults(field: string, value: number, [low, high]: Range): InputFault[] {
  if (!Number.isFinite(value)) return [{ code: 'not-a-number', params: { field } }]
  return value < low || value > high ? [{ code: 'out-of-range', params: { field, value, low, high } }] : []
}

/** What is wrong with a part; empty when nothing is. */
export function partFaults(part: PartClass): InputFault[] {
  const optional = (field: string, value: number | undefined, range: Range): InputFault[] =>
    value === undefined ? [] : rangeFaults(field, value, range)
  return [
    ...rangeFaults('thicknessMm', part.thicknessMm, [1, 100]),
    ...optional('thickestMm', part.thickestMm, [1, 200]),
    ...optional('rim.widthMm', part.rim?.widthMm, [3, 200]),
    ...optional('innerFaceShare', part.innerFaceShare, [0, 1]),
    ...optional('frame.barWidthMm', part.frame?.barWidthMm, [3, 1000]),
    ...optional('lengthMm', part.lengthMm, [10, 3000]),
  ]
}

/** What is wrong with cover spans; empty when nothing is. */
export function spanFaults(spans: readonly CoverSpan[]): InputFault[] {
  if (spans.length === 0) return [{ code: 'no-cover-spans', params: {} }]
  const faults = spans.flatMap(({ fromMin, dampenedKgM2 = 0 }, i) => [
    ...rangeFaults(`spans[${i}].fromMin`, fromMin, [-1e9, 1e9]),
    ...rangeFaults(`spans[${i}].dampenedKgM2`, dampenedKgM2, [0, 5]),
  ])
  const falling = spans.findIndex((span, i) => i > 0 && span.fromMin < spans[i - 1]!.fromMin)
  if (falling > 0) faults.push({ code: 'spans-do-not-rise', params: { span: falling + 1 } })
  return faults
}
