/**
 * `npm run bench:coverage -- WEATHER.csv`: what the odds are worth before anything is learned. A foreign world dries ware
 * in real and made-up weather; the model, told only the clay's usual numbers and a hygrometer's log up to the cut, gives
 * intervals for the time to leather hard, and joint spans to join in with look-ins. Exits 1 if intervals given at 90 %
 * hold in fewer than 85 or more than 95 %.
 */
import { drawnAir } from '#core/air/drawnAir.ts'
import { hourlyOutlook } from '#core/air/outlook.ts'
import { defaultClay } from '#core/drying/clay.ts'
import { demandBook, type DemandBook } from '#core/drying/demand.ts'
import { jointDraws, middleDraw, priorBeliefs } from '#core/drying/draws.ts'
import { windowTables } from '#core/drying/fastPath.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { spanAt } from '#core/drying/span.ts'
import type { AirOfSpot, CoverRegime, Draw, StepBand } from '#core/drying/types.ts'
import { fallsTo } from '#core/drying/windows.ts'
import type { AirAt } from '#core/air/types.ts'
import { seededRng, type Rng } from '#core/rng.ts'
import {
  foreignClay,
  foreignDrying,
  foreignFallsTo,
  type ForeignAir,
  type ForeignCover,
} from '../test/bench/foreignDrying.ts'
import { indoorSeasons, type Season } from './bench/indoorSeasons.ts'
import { tradeTable } from './bench/tradeRanges.ts'

const DAY_MIN = 1_440
const HORIZON_MIN = 24 * DAY_MIN
const DRAW_COUNT = 100
const TRUTHS_PER_SEASON = 32
const LEVELS = [0.5, 0.8, 0.9, 0.95] as const
const THICKNESSES_MM = [5, 8, 12] as const
const COVERS: readonly ForeignCover[] = ['open', 'loose']
const LOOK_IN_EVERY_MIN = 300
const join: StepBand = { from: 'leather hard', to: 'firm' }

const file = process.argv[2]
if (!file) {
  console.error('npm run bench:coverage -- WEATHER.csv (hourly: time_utc,temp_c,dewpoint_c,rh_pct,...)')
  process.exit(2)
}
const seasons = indoorSeasons(file)
const draws = jointDraws(priorBeliefs(defaultClay), DRAW_COUNT, 20)

/** One question asked of the model and the world: how the answers compare. */
type Case = {
  readonly season: string
  readonly thicknessMm: number
  readonly cover: ForeignCover
  readonly halfWidth: number
  /** By level: whether the true time lay inside. */
  readonly inside: readonly boolean[]
  /** By level: no span given, or whether it held. */
  readonly spanHeld: readonly (boolean | undefined)[]
}

const cases = seasons.flatMap((season, s) =>
  Array.from({ length: TRUTHS_PER_SEASON }, (_, n) => askAbout(season, seededRng(1_000 * s + n))).flat(),
)

report('all', cases)
for (const { name } of seasons)
  report(
    name,
    cases.filter(({ season }) => season === name),
  )
for (const mm of THICKNESSES_MM)
  report(
    `${mm} mm`,
    cases.filter(({ thicknessMm }) => thicknessMm === mm),
  )
for (const cover of COVERS)
  report(
    cover,
    cases.filter((one) => one.cover === cover),
  )
roomCheck()
console.log(tradeTable())
const at90 = shareOf(cases.map(({ inside }) => inside[2]!))
console.log(
  `${at90 >= 0.85 && at90 <= 0.95 ? 'pass' : 'FAIL'}  intervals at 90 % hold in ${(100 * at90).toFixed(1)} %, bar 85 to 95 %`,
)
process.exitCode = at90 >= 0.85 && at90 <= 0.95 ? 0 : 1

/** All thicknesses and covers in one world, cut at a random hour of the season. */
function askAbout(season: Season, rng: Rng): Case[] {
  const clay = foreignClay(rng.next)
  const cutMin = season.fromMin + rng.int(Math.max(1, season.toMin - season.fromMin - 8 * DAY_MIN))
  const logged = season.hours
    .filter(({ minute }) => minute > cutMin - 28 * DAY_MIN && minute <= cutMin)
    .map(({ minute, tempC, rh }) => ({
      minute,
      tempC: tempC + 0.3 * rng.normal(),
      rh: Math.min(0.99, Math.max(0.02, rh + clay.rhBias + 0.01 * rng.normal())),
    }))
  const { outlook } = hourlyOutlook(logged, {
    fromMin: cutMin,
    toMin: cutMin + HORIZON_MIN,
    nowMin: cutMin,
    dayOffsetMin: -300,
    airSpeedMS: 0.1,
    word: 'normal',
  })
  const airs = new Map<Draw, AirAt>(draws.map((draw) => [draw, drawnAir(outlook, draw.outlook)]))
  const airOfSpot: AirOfSpot = (_, draw) => airs.get(draw)!
  const book = demandBook(draws, airOfSpot, cutMin, cutMin + HORIZON_MIN)
  const truly = (minute: number): ForeignAir => airAtMinute(season, cutMin + minute)
  return THICKNESSES_MM.flatMap((thicknessMm) =>
    COVERS.map((cover) => compare(season, { book, cutMin, clay, truly, thicknessMm, cover })),
  )
}

type Question = {
  readonly book: DemandBook
  readonly cutMin: number
  readonly clay: ReturnType<typeof foreignClay>
  readonly truly: (minute: number) => ForeignAir
  readonly thicknessMm: number
  readonly cover: ForeignCover
}

function compare(season: Season, { book, cutMin, clay, truly, thicknessMm, cover }: Question): Case {
  const request = {
    book,
    parts: [{ thicknessMm, board: 'sealed' as const }],
    bands: [join],
    cutMin: [cutMin],
    horizonMin: HORIZON_MIN,
  }
  const plain: CoverRegime = { id: cover, spansFrom: (fromMin) => [{ fromMin, cover, spotId: 'rack' }] }
  const lookInsFrom = (fromMin: number): number[] =>
    Array.from({ length: HORIZON_MIN / LOOK_IN_EVERY_MIN }, (_, i) => fromMin + (i + 1) * LOOK_IN_EVERY_MIN)
  const tended: CoverRegime = { ...plain, recourse: { lookInsFrom, forBand: 0, park: 'tucked' } }
  const [table] = windowTables({ ...request, regime: plain })
  const opens = table!.openMin[0]!.map((minute) => minute - cutMin).toSorted((a, b) => a - b)
  const trueOpen = foreignFallsTo(
    foreignDrying(clay, thicknessMm, HORIZON_MIN, truly, () => cover),
    clay.leatherHardDb,
  )
  const inside = LEVELS.map((level) => {
    const [low, high] = interval(opens, level)
    return trueOpen >= low && trueOpen <= high
  })
  const [low, high] = interval(opens, 0.9)
  const [parked] = windowTables({ ...request, regime: tended })
  const { openMin, closeMin } = trulyTended(clay, thicknessMm, truly, cover)
  const spanHeld = LEVELS.map((level) => {
    const span = spanAt(parked!, cutMin, level)
    return span.empty ? undefined : openMin + cutMin <= span.startMin && closeMin + cutMin >= span.endMin
  })
  return {
    season: season.name,
    thicknessMm,
    cover,
    halfWidth: high < Infinity ? (high - low) / 2 / opens[DRAW_COUNT / 2]! : Infinity,
    inside,
    spanHeld,
  }
}

/** The world's own window when the hand that looks in tucks what it finds leather hard. */
function trulyTended(clay: Question['clay'], thicknessMm: number, truly: Question['truly'], cover: ForeignCover) {
  let tucked = false
  const means = foreignDrying(clay, thicknessMm, HORIZON_MIN, truly, (minute, meanDb) => {
    if (minute > 0 && minute % LOOK_IN_EVERY_MIN === 0 && meanDb <= clay.leatherHardDb) tucked = true
    return tucked ? 'tucked' : cover
  })
  return {
    openMin: foreignFallsTo(means, clay.leatherHardDb),
    closeMin: Math.min(HORIZON_MIN, foreignFallsTo(means, clay.firmDb)),
  }
}

/** Middle interval of sorted draws at a level. */
function interval(sorted: readonly number[], level: number): readonly [number, number] {
  const place = (share: number): number =>
    sorted[Math.min(sorted.length - 1, Math.max(0, Math.round(share * sorted.length - 0.5)))]!
  return [place((1 - level) / 2), place((1 + level) / 2)]
}

function airAtMinute(season: Season, minute: number): ForeignAir {
  const place = Math.max(0, Math.floor((minute - season.hours[0]!.minute) / 60))
  return season.hours[Math.min(season.hours.length - 1, place)]!
}

function report(name: string, some: readonly Case[]): void {
  if (name === 'all') {
    console.log(
      'Coverage in % of intervals for the time to leather hard, their half-width at 90 %, and joint spans to join in',
    )
    console.log(
      `${'given at'.padEnd(12)}${LEVELS.map((level) => `${level * 100} %`.padStart(7)).join('')}   half-width   spans given / held at 90 %`,
    )
  }
  const covered = LEVELS.map((_, i) =>
    `${(100 * shareOf(some.map(({ inside }) => inside[i]!))).toFixed(0)}`.padStart(7),
  ).join('')
  const widths = some.map(({ halfWidth }) => halfWidth).toSorted((a, b) => a - b)
  const given = some.flatMap(({ spanHeld }) => (spanHeld[2] === undefined ? [] : [spanHeld[2]]))
  const spans = `${((100 * given.length) / some.length).toFixed(0)} % / ${given.length > 0 ? (100 * shareOf(given)).toFixed(0) : '-'} %`
  console.log(
    `${name.padEnd(12)}${covered}   ${(100 * widths[Math.floor(widths.length / 2)]!).toFixed(0).padStart(6)} %       ${spans} of ${some.length}`,
  )
}

function shareOf(flags: readonly boolean[]): number {
  return flags.length === 0 ? 0 : flags.filter(Boolean).length / flags.length
}

/** The room at a set point of 20 °C through the year, and a 6 mm slab on a sealed board in it. */
function roomCheck(): void {
  for (const [name, rhWanted, hoursWanted] of [
    ['january', 0.21, 10],
    ['july', 0.67, 22],
  ] as const) {
    const season = seasons.find((one) => one.name === name)!
    const inMonth = season.hours.filter(({ minute }) => minute >= season.fromMin && minute < season.toMin)
    const meanRh = inMonth.reduce((sum, { rh }) => sum + rh, 0) / inMonth.length
    const hours = Array.from({ length: 14 }, (_, day) => {
      const cutMin = season.fromMin + day * 2 * DAY_MIN + 900
      const airAt: AirAt = (minute) => ({ ...airAtMinute(season, minute), airSpeedMS: 0.1 })
      const path = trajectory({
        part: { thicknessMm: 6, board: 'sealed' },
        spans: [{ fromMin: cutMin, cover: 'open', spotId: 'rack' }],
        airOfSpot: () => airAt,
        draw: middleDraw(priorBeliefs(defaultClay)),
        toMin: cutMin + 4 * DAY_MIN,
      })
      return (fallsTo(path.minute, path.meanDb, 0.175) - cutMin) / 60
    }).toSorted((a, b) => a - b)
    console.log(
      `room in ${name}: mean humidity ${meanRh.toFixed(2)} (about ${rhWanted}), 6 mm leather hard after ${hours[0]!.toFixed(1)} to ${hours.at(-1)!.toFixed(1)} h, median ${hours[7]!.toFixed(1)} (about ${hoursWanted})`,
    )
  }
}
