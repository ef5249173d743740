/**
 * `npm run bench:coverage -- WEATHER.csv`: what the odds are worth before anything is learned. A foreign world dries ware
 * in real and made-up weather; the model, told only the clay's usual numbers and a hygrometer's log up to the cut, gives
 * intervals for the time to leather hard, and joint spans to join in with look-ins. Each world has draws of its own, so
 * that no lucky set of them decides. Exits 1 unless both hold within five points of what they are given at (50, 80, 90,
 * 95 %), and joint spans given at 90 % in 85 to 95 % in every season that has enough of them.
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
import { seededRng } from '#core/rng.ts'
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
const COVERS: readonly ForeignCover[] = ['open', 'cloth', 'loose']
const LOOK_IN_EVERY_MIN = 300
const join: StepBand = { from: 'leather hard', to: 'firm' }

const file = process.argv[2]
if (!file) {
  console.error('npm run bench:coverage -- WEATHER.csv (hourly: time_utc,temp_c,dewpoint_c,rh_pct,...)')
  process.exit(2)
}
const seasons = indoorSeasons(file)
const beliefs = priorBeliefs(defaultClay)
/** Points by which what holds may differ from what was promised. */
const BAR_POINTS = 5
/** Seasons with fewer spans than this are shown, not judged. */
const ENOUGH_SPANS = 60

/** One question asked of the model and the world: how the answers compare. */
type Case = {
  readonly season: string
  readonly thicknessMm: number
  readonly cover: ForeignCover
  readonly halfWidth: number
  /** By level: whether the true time lay inside. */
  readonly inside: readonly boolean[]
  /** By level: no span given, or how it did. */
  readonly spans: readonly (GivenSpan | undefined)[]
}

type GivenSpan = {
  readonly opensLate: boolean
  readonly closesEarly: boolean
  /** Half its length, as share of the time to its middle. */
  readonly halfWidth: number
}

const held = ({ opensLate, closesEarly }: GivenSpan): boolean => !opensLate && !closesEarly

const cases = seasons.flatMap((season, s) =>
  Array.from({ length: TRUTHS_PER_SEASON }, (_, n) => askAbout(season, 1_000 * s + n)).flat(),
)

const groups: readonly (readonly [name: string, isIn: (one: Case) => boolean])[] = [
  ['all', () => true],
  ...seasons.map(({ name }) => [name, ({ season }: Case) => season === name] as const),
  ...THICKNESSES_MM.map((mm) => [`${mm} mm`, ({ thicknessMm }: Case) => thicknessMm === mm] as const),
  ...COVERS.map((cover) => [cover, (one: Case) => one.cover === cover] as const),
]
console.log('Time to leather hard: how many in 100 lie in the interval, by what it was given at; half-width at 90 %')
for (const [name, isIn] of groups) reportIntervals(name, cases.filter(isIn))
console.log('Joint spans to join in: given in %, held in %, of these opening late / closing early; half-width at 90 %')
for (const [name, isIn] of groups) reportSpans(name, cases.filter(isIn))
roomCheck()
console.log(tradeTable())
process.exitCode = judged().every(Boolean) ? 0 : 1

function judged(): boolean[] {
  const spansOf = (some: readonly Case[], level: number): GivenSpan[] => some.flatMap(({ spans }) => spans[level] ?? [])
  const bySeason = seasons.flatMap(({ name }) => {
    const given = spansOf(
      cases.filter(({ season }) => season === name),
      2,
    )
    return given.length < ENOUGH_SPANS ? [] : [bar(`joint spans in ${name}`, 0.9, shareOf(given.map(held)))]
  })
  return LEVELS.flatMap((level, i) => [
    bar('intervals', level, shareOf(cases.map(({ inside }) => inside[i]!))),
    bar('joint spans', level, shareOf(spansOf(cases, i).map(held))),
  ]).concat(bySeason)
}

function bar(what: string, level: number, share: number): boolean {
  const low = 100 * level - BAR_POINTS
  const passed = 100 * share >= low && 100 * share <= low + 2 * BAR_POINTS
  console.log(
    `${passed ? 'pass' : 'FAIL'}  ${what} at ${100 * level} % hold in ${(100 * share).toFixed(1)} %, bar ${low} to ${low + 2 * BAR_POINTS} %`,
  )
  return passed
}

/** All thicknesses and covers in one world, cut at a random hour of the season. */
function askAbout(season: Season, seed: number): Case[] {
  const rng = seededRng(seed)
  const draws = jointDraws(beliefs, DRAW_COUNT, seed)
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
  const spans = LEVELS.map((level): GivenSpan | undefined => {
    const span = spanAt(parked!, cutMin, level)
    if (span.empty) return undefined
    const start = span.startMin - cutMin
    const end = span.endMin - cutMin
    return { opensLate: openMin > start, closesEarly: closeMin < end, halfWidth: (end - start) / (end + start) }
  })
  return {
    season: season.name,
    thicknessMm,
    cover,
    halfWidth: high < Infinity ? (high - low) / 2 / opens[DRAW_COUNT / 2]! : Infinity,
    inside,
    spans,
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

function reportIntervals(name: string, some: readonly Case[]): void {
  const covered = LEVELS.map((level, i) => `${level * 100}: ${percent(shareOf(some.map(({ inside }) => inside[i]!)))}`)
  const width = medianOf(some.map(({ halfWidth }) => halfWidth))
  console.log(`${name.padEnd(9)} ${covered.join('  ')}   half-width ${percent(width)} %   of ${some.length}`)
}

function reportSpans(name: string, some: readonly Case[]): void {
  const columns = LEVELS.map((level, i) => {
    const given = some.flatMap(({ spans }) => spans[i] ?? [])
    const late = shareOf(given.map(({ opensLate }) => opensLate))
    const early = shareOf(given.map(({ closesEarly }) => closesEarly))
    const parts = `${percent(shareOf(given.map(held)))} (${percent(late)} / ${percent(early)})`
    return `${level * 100}: given ${percent(given.length / some.length)}, held ${given.length > 0 ? parts : '-'}`
  })
  const width = medianOf(some.flatMap(({ spans }) => spans[2]?.halfWidth ?? []))
  console.log(`${name.padEnd(9)} ${columns.join('  ')}   half-width ${percent(width)} %`)
}

function percent(share: number): string {
  return (Number.isFinite(share) ? (100 * share).toFixed(0) : '-').padStart(3)
}

function medianOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN
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
        draw: middleDraw(beliefs),
        toMin: cutMin + 4 * DAY_MIN,
      })
      return (fallsTo(path.minute, path.meanDb, 0.175) - cutMin) / 60
    }).toSorted((a, b) => a - b)
    console.log(
      `room in ${name}: mean humidity ${meanRh.toFixed(2)} (about ${rhWanted}), 6 mm leather hard after ${hours[0]!.toFixed(1)} to ${hours.at(-1)!.toFixed(1)} h, median ${hours[7]!.toFixed(1)} (about ${hoursWanted})`,
    )
  }
}
