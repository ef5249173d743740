import type { Minute } from '../time.ts'
import { firmnessThresholdDb } from './clay.ts'
import type { Binding, Draw, Firmness, StepBand, Trajectory, WindowTable } from './types.ts'

/** A step's band as moistures in one draw; infinite where the step sets no limit. */
export type MoistureBand = {
  readonly openAtDb: number
  readonly closeAtDb: number
  readonly rimCloseAtDb: number
  readonly maxDifferenceDb: number
}

/** A band of firmness in one draw's moistures. */
export function moistureBandOf(band: StepBand, draw: Draw): MoistureBand {
  const thresholdDb = (firmness: Firmness | 'any', anyDb: number): number =>
    firmness === 'any' ? anyDb : firmnessThresholdDb(firmness, draw)
  const closeAtDb = thresholdDb(band.to, -Infinity)
  return {
    openAtDb: thresholdDb(band.from, Infinity),
    closeAtDb,
    rimCloseAtDb: Math.min(closeAtDb, thresholdDb(band.rimTo ?? 'chalky', -Infinity)),
    maxDifferenceDb: band.maxDifferenceDb ?? Infinity,
  }
}

/** One window in one draw. */
export type DrawWindow = {
  readonly openMin: number
  readonly closeMin: number
  readonly opens: Binding
  readonly closes: Binding
}

/** How one part dries in one draw, as far as windows ask: what every way of reckoning hands over. */
export type PartCurve = {
  /** First minute at which the part's mean is at or below a moisture; Infinity if not by `endMin`. */
  readonly meanFallsTo: (moistureDb: number) => number
  /** The same of its rim, looked for no further than `beforeMin`. */
  readonly rimFallsTo: (moistureDb: number, beforeMin: number) => number
  readonly meanAt: (minute: number) => number
  readonly endMin: number
}

/** A part's curve from its trajectory. */
export const curveOf = ({ minute, meanDb, rimDb }: Trajectory): PartCurve => ({
  meanFallsTo: (moistureDb) => fallsTo(minute, meanDb, moistureDb),
  rimFallsTo: (moistureDb) => fallsTo(minute, rimDb, moistureDb),
  meanAt: (atMin) => moistureAt(minute, meanDb, atMin),
  endMin: minute.at(-1)!,
})

/**
 * The window of a step over all parts that it needs. It opens when the last part is firm enough and closes when the
 * first part, or its rim, is too dry, or when parts differ by too much.
 * @returns exact minutes, not yet rounded; `openMin` Infinity if a part is still too soft at the end
 */
export function windowOf(curves: readonly PartCurve[], band: MoistureBand): DrawWindow {
  let openMin = -Infinity
  let openPart = 0
  let closeMin = Infinity
  let closePart = 0
  let closeBy: Binding['by'] = 'horizon'
  for (let part = 0; part < curves.length; part++) {
    const curve = curves[part]!
    const open = curve.meanFallsTo(band.openAtDb)
    if (open > openMin) {
      openMin = open
      openPart = part
    }
    if (curve.endMin < closeMin) {
      closeMin = curve.endMin
      closePart = part
      closeBy = 'horizon'
    }
    const close = band.closeAtDb > 0 ? curve.meanFallsTo(band.closeAtDb) : Infinity
    if (close < closeMin) {
      closeMin = close
      closePart = part
      closeBy = 'too dry'
    }
    const rimClose = band.rimCloseAtDb > 0 ? curve.rimFallsTo(band.rimCloseAtDb, closeMin) : Infinity
    if (rimClose < closeMin) {
      closeMin = rimClose
      closePart = part
      closeBy = 'rim too dry'
    }
  }
  if (curves.length > 1 && band.maxDifferenceDb < Infinity && openMin < closeMin) {
    const apart = partFrom(curves, band.maxDifferenceDb, openMin, closeMin)
    if (apart.minute < closeMin) {
      closeMin = apart.minute
      closePart = apart.part
      closeBy = 'parts differ'
    }
  }
  return { openMin, closeMin, opens: bindingOf(openPart, 'too soft'), closes: bindingOf(closePart, closeBy) }
}

const MOST_PARTS = 64
const reasons: readonly Binding['by'][] = ['too soft', 'too dry', 'rim too dry', 'parts differ', 'horizon']
/** Each binding once, since tables of many draws repeat them by the thousand. */
const bindings: readonly Binding[] = Array.from({ length: MOST_PARTS }, (_, part) =>
  reasons.map((by) => ({ part, by })),
).flat()

const bindingOf = (part: number, by: Binding['by']): Binding =>
  bindings[part * reasons.length + reasons.indexOf(by)] ?? { part, by }

/** First moment at which a falling curve is at or below a level, between its points by proportion. */
export function fallsTo(minute: readonly number[], moistureDb: readonly number[], levelDb: number): number {
  for (let i = 0; i < minute.length; i++) {
    if (moistureDb[i]! > levelDb) continue
    if (i === 0) return minute[0]!
    const share = (moistureDb[i - 1]! - levelDb) / (moistureDb[i - 1]! - moistureDb[i]!)
    return minute[i - 1]! + share * (minute[i]! - minute[i - 1]!)
  }
  return Infinity
}

/** Moisture on a trace at a moment, by proportion between its points; constant beyond its ends. */
export function moistureAt(minute: readonly number[], moistureDb: readonly number[], atMin: Minute): number {
  let low = 0
  let high = minute.length - 1
  if (atMin <= minute[low]!) return moistureDb[low]!
  if (atMin >= minute[high]!) return moistureDb[high]!
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (minute[middle]! <= atMin) low = middle
    else high = middle
  }
  const share = (atMin - minute[low]!) / (minute[high]! - minute[low]!)
  return moistureDb[low]! + share * (moistureDb[high]! - moistureDb[low]!)
}

/** How finely parts that grow apart are looked at. */
const APART_STEP_MIN = 15

/** First moment of a window at which the wettest and the driest part are too far apart; `part` is the driest. */
function partFrom(
  curves: readonly PartCurve[],
  maxDifferenceDb: number,
  fromMin: number,
  toMin: number,
): { minute: number; part: number } {
  for (let minute = fromMin; minute < toMin; minute += APART_STEP_MIN) {
    const moistures = curves.map((curve) => curve.meanAt(minute))
    const driest = Math.min(...moistures)
    if (Math.max(...moistures) - driest > maxDifferenceDb) return { minute, part: moistures.indexOf(driest) }
  }
  return { minute: Infinity, part: 0 }
}

/** Draw-by-draw windows as a table. @param rows [cut][draw] */
export function tableOf(cutMin: readonly Minute[], rows: readonly (readonly DrawWindow[])[]): WindowTable {
  return {
    cutMin,
    openMin: rows.map((row) => row.map(({ openMin }) => openMin)),
    closeMin: rows.map((row) => row.map(({ closeMin }) => closeMin)),
    opens: rows.map((row) => mostCommon(row.map(({ opens }) => opens))),
    closes: rows.map((row) => mostCommon(row.map(({ closes }) => closes))),
  }
}

/** Room to count how often each part binds by each reason. */
const counts = new Uint16Array(MOST_PARTS * reasons.length)

function mostCommon(bindings: readonly Binding[]): Binding {
  counts.fill(0)
  let best = bindings[0]!
  let bestCount = 0
  for (const binding of bindings) {
    const place = (binding.part % MOST_PARTS) * reasons.length + reasons.indexOf(binding.by)
    const count = ++counts[place]!
    if (count <= bestCount) continue
    best = binding
    bestCount = count
  }
  return best
}
