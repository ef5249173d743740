/**
 * `npm run bench:drying`: speed of the drying model against its bars, in CPU seconds divided by the machine factor that is
 * measured in the same run; prints pass or fail per bar and exits by it. Bundled as the program is: run from its sources
 * through a loader that names every closure, cold tables take half as long again.
 */
import { spotAirs } from '#core/air/spotAirs.ts'
import { defaultClay } from '#core/drying/clay.ts'
import { demandBook } from '#core/drying/demand.ts'
import { jointDraws, middleDraw, priorBeliefs } from '#core/drying/draws.ts'
import { tableKeeper } from '#core/drying/fastPath.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { spanAt } from '#core/drying/span.ts'
import type {
  AirOfSpot,
  CoverKind,
  CoverRegime,
  CoverSpan,
  PartClass,
  StepBand,
  WindowTable,
} from '#core/drying/types.ts'
import { moistureAt } from '#core/drying/windows.ts'
import { seededRng } from '#core/rng.ts'
import { cpuSeconds, fairSeconds, machineFactor } from './bench/machineFactor.ts'

const DAY_MIN = 1_440
const NOW_MIN = 40 * DAY_MIN
const HORIZON_MIN = 10 * DAY_MIN
/** Two weeks of cutting, a session a day. */
const CUT_COUNT = 14
const DRAW_COUNT = 32
/** As a studio makes: of each design a few runs. */
const RUN_COUNT = 120
const DESIGN_COUNT = 40
const SPOTS = ['rack', 'shelf', 'heater'] as const

const beliefs = priorBeliefs(defaultClay)
const airs = spotAirs({
  spots: SPOTS.map((id, i) => ({ id, air: { kind: 'log', word: 'normal' }, airSpeedMS: 0.1 + 0.1 * i })),
  readings: SPOTS.flatMap((spotId, i) => aLog(spotId, 17 + 2 * i)),
  fromMin: NOW_MIN - 10 * DAY_MIN,
  toMin: NOW_MIN + 40 * DAY_MIN,
  nowMin: NOW_MIN,
  dayOffsetMin: 0,
})
const airOfSpot: AirOfSpot = (spotId, draw) => airs.airOf(spotId, draw.outlook)

const bands: readonly StepBand[] = [
  { from: 'soft', to: 'leather hard' },
  { from: 'leather hard', to: 'firm' },
]

const factor = machineFactor()
console.log(`machine factor ${factor.toFixed(2)}`)
const passed = [...fullRun(), warmQuery(), ...coldTables()].every(Boolean)
process.exitCode = passed ? 0 : 1

/** Four weeks of a room's air, hour by hour. */
function aLog(spotId: string, tempC: number) {
  const rng = seededRng(tempC)
  return Array.from({ length: 28 * 24 }, (_, hour) => ({
    spotId,
    minute: NOW_MIN - 28 * DAY_MIN + hour * 60,
    tempC: tempC + 2 * Math.sin(hour / 3.82) + rng.normal() * 0.5,
    rh: Math.min(
      0.95,
      Math.max(0.1, 0.5 - 0.07 * Math.sin(hour / 3.82) + 0.1 * Math.sin(hour / 40) + rng.normal() * 0.02),
    ),
  }))
}

function bar(name: string, measured: number, most: number, unit: string): boolean {
  const held = measured <= most
  console.log(`${held ? 'pass' : 'FAIL'}  ${name}: ${measured.toPrecision(3)} ${unit}, bar ${most} ${unit}`)
  return held
}

/** One part for fourteen days on hourly air through four changes of cover, to the end. */
function fullRun(): boolean[] {
  const spans: CoverSpan[] = (
    [
      [0, 'open'],
      [300, 'loose'],
      [1_500, 'tucked'],
      [4_000, 'cloth'],
      [7_000, 'open'],
    ] as const
  ).map(([afterMin, cover]) => ({ fromMin: NOW_MIN + afterMin, cover, spotId: 'rack' }))
  const draw = middleDraw(beliefs)
  const part: PartClass = { thicknessMm: 9, board: 'sealed' }
  const request = { part, spans, airOfSpot, draw, toMin: NOW_MIN + 14 * DAY_MIN }
  const batches = Array.from({ length: 12 }, () => cpuSeconds(() => repeat(40, () => trajectory(request))) / 40)
  const usual = trajectory(request)
  const limit = trajectory({ ...request, stepMin: 0.5 })
  const errors = limit.minute.map((minute, i) =>
    Math.abs(moistureAt(usual.minute, usual.meanDb, minute) - limit.meanDb[i]!),
  )
  return [
    bar('full run of 14 days', (1_000 * median(batches)) / factor, 2, 'ms'),
    bar('full run against steps going to zero', Math.max(...errors), 0.001, 'in X'),
  ]
}

function regimes(): CoverRegime[] {
  const kinds: readonly (readonly [string, ...(readonly [number, CoverKind])[]])[] = [
    ['open', [0, 'open']],
    ['cloth', [0, 'cloth']],
    ['loose', [0, 'loose']],
    ['open, then loose', [0, 'open'], [300, 'loose']],
    ['open, tucked overnight, open', [0, 'open'], [300, 'tucked'], [1_020, 'open']],
    ['loose, tucked, open, loose', [0, 'loose'], [400, 'tucked'], [1_800, 'open'], [2_200, 'loose']],
  ]
  return kinds.map(([id, ...list]) => ({
    id,
    spansFrom: (cutMin) =>
      list.map(([afterMin, cover]) => ({ fromMin: cutMin + afterMin, cover, spotId: SPOTS[id.length % 3]! })),
  }))
}

/** Designs of one to three parts each, some with rims that stay; all different. */
function someDesigns(count: number): PartClass[][] {
  const rng = seededRng(5)
  return Array.from({ length: count }, () =>
    Array.from({ length: 1 + rng.int(3) }, (): PartClass => ({
      thicknessMm: 5 + rng.int(16) / 2,
      board: rng.int(3) === 0 ? 'rack' : 'sealed',
      ...(rng.int(3) === 0 && { rim: { widthMm: 15 } }),
    })),
  )
}

function tablesFor(runs: readonly (readonly PartClass[])[]): WindowTable[] {
  const cutMin = Array.from({ length: CUT_COUNT }, (_, i) => NOW_MIN + i * DAY_MIN + 617)
  const book = demandBook(jointDraws(beliefs, DRAW_COUNT, 1), airOfSpot, NOW_MIN, cutMin.at(-1)! + HORIZON_MIN)
  const tables = tableKeeper(book, cutMin, HORIZON_MIN)
  return runs.flatMap((parts) => regimes().flatMap((regime) => tables(parts, bands, regime)))
}

function warmQuery(): boolean {
  const tables = tablesFor(someDesigns(3))
  const odds = [0.5, 0.8, 0.9, 0.95]
  let found = 0
  const ask = (i: number): void => {
    const table = tables[i % tables.length]!
    if (!spanAt(table, table.cutMin[i % CUT_COUNT]! + 5, odds[i % 4]!).empty) found++
  }
  const count = 200_000
  const batches = Array.from(
    { length: 5 },
    () =>
      cpuSeconds(() => {
        for (let i = 0; i < count; i++) ask(i)
      }) / count,
  )
  if (found === 0) console.log('note: no span was found in any table')
  return bar('warm window query', (1e6 * median(batches)) / factor, 5, 'microseconds')
}

/** All tables of 120 runs, 6 regimes, 32 draws, nothing kept from before; and what stays in memory afterwards. */
function coldTables(): boolean[] {
  const designs = someDesigns(DESIGN_COUNT)
  const runs = Array.from({ length: RUN_COUNT }, (_, i) => designs[i % DESIGN_COUNT]!)
  const seconds = fairSeconds(() => void tablesFor(runs))
  const heaps = Array.from({ length: 4 }, () => {
    tablesFor(designs.slice(0, 4))
    globalThis.gc?.()
    return process.memoryUsage().heapUsed / 1e6
  })
  console.log(`heap ${heaps.map((mb) => mb.toFixed(1)).join(', ')} MB`)
  console.log(`if no two runs were alike: ${((seconds * RUN_COUNT) / DESIGN_COUNT).toFixed(1)} s at the most`)
  const growth = Math.max(0, heaps.at(-1)! - heaps[1]!)
  return [
    bar('cold tables of 120 runs, 6 regimes, 32 draws', seconds, 3, 's'),
    bar('heap growth over two more rounds', growth, 1, 'MB'),
  ]
}

function repeat(times: number, work: () => void): void {
  for (let i = 0; i < times; i++) work()
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!
}
