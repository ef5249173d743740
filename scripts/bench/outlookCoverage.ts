import { saturationPressurePa } from '#core/air/psychrometrics.ts'
import { drawnAir } from '#core/air/drawnAir.ts'
import { hourlyOutlook } from '#core/air/outlook.ts'
import { normalQuantile } from '#core/drying/draws.ts'
import { seededRng, type Rng } from '#core/rng.ts'
import type { Season } from './indoorSeasons.ts'

const MEMORY_HOURS = 28 * 24
/** Stretches ahead over which the air's mean is asked for, in hours. */
const STRETCHES = [12, 24, 48, 72, 120] as const
const LONGEST = STRETCHES[4]
const EVERY_HOURS = 11
const DRAWS = 40

/** What came over one stretch beside what the outlook's draws said of it. */
type Asked = { readonly season: string; readonly kind: Season['kind']; readonly stretch: number } & Answer
type Answer = { readonly below: number; readonly missPa: number; readonly spreadPa: number }

/**
 * Whether an outlook alone is as wide as it should be: its draws' mean vapour deficit over half a day to five days beside
 * what came, from many origins in each season. A mean of days strays by more than its hours would if each went its way.
 */
export function outlookTable(seasons: readonly Season[]): string {
  const asked = seasons.flatMap((season) => askedIn(season))
  const rows: readonly (readonly [string, (one: Asked) => boolean])[] = [
    ...[...new Set(asked.map(({ season }) => season))].map(
      (name) => [name, (one: Asked) => one.season === name] as const,
    ),
    ['fitted', ({ kind }) => kind === 'fitted'],
    ['unseen', ({ kind }) => kind === 'unseen'],
  ]
  const lines = rows.map(
    ([name, isIn]) => `${name.padEnd(9)} ${STRETCHES.map((_, s) => cell(asked, isIn, s)).join('  ')}`,
  )
  return [
    'Mean vapour deficit ahead: in 50 / 90 % intervals, bias, root mean square of misses / of spreads believed, Pa',
    ...lines,
  ].join('\n')
}

function cell(asked: readonly Asked[], isIn: (one: Asked) => boolean, stretch: number): string {
  const some = asked.filter((one) => one.stretch === stretch && isIn(one))
  const within = (level: number): string =>
    ((100 * some.filter(({ below }) => Math.abs(below - 0.5) <= level / 2).length) / some.length).toFixed(0)
  const bias = meanOf(some.map(({ missPa }) => missPa)).toFixed(0)
  const missed = Math.sqrt(meanOf(some.map(({ missPa }) => missPa ** 2))).toFixed(0)
  const believed = Math.sqrt(meanOf(some.map(({ spreadPa }) => spreadPa ** 2))).toFixed(0)
  return `${STRETCHES[stretch]} h: ${within(0.5)} / ${within(0.9)}, ${bias.padStart(4)}, ${missed} / ${believed}`
}

function askedIn({ season, kind, hours, fromMin, toMin }: Season): Asked[] {
  const first = hours.findIndex(({ minute }) => minute >= fromMin)
  const last = Math.min(
    hours.findLastIndex(({ minute }) => minute <= toMin),
    hours.length - 1 - LONGEST,
  )
  const origins = Array.from(
    { length: Math.max(0, Math.ceil((last - first) / EVERY_HOURS)) },
    (_, i) => first + i * EVERY_HOURS,
  )
  // A week of log at the least: the file begins in January.
  return origins
    .filter((at) => at >= 7 * 24)
    .flatMap((at) => answersAt(hours, at).map((answer, stretch) => ({ season, kind, stretch, ...answer })))
}

function answersAt(hours: Season['hours'], at: number): Answer[] {
  const nowMin = hours[at]!.minute
  const rng = seededRng(at)
  const { outlook } = hourlyOutlook(hours.slice(Math.max(0, at - MEMORY_HOURS), at + 1), {
    fromMin: nowMin,
    toMin: nowMin + (LONGEST + 1) * 60,
    nowMin,
    dayOffsetMin: -300,
    airSpeedMS: 0.1,
    word: 'normal',
  })
  const came = runningMeans((hour) => deficitPa(hours[at + hour]!))
  const warmth = shuffledScores(rng)
  const damp = shuffledScores(rng)
  const said = warmth.map((warm, d) => {
    const airAt = drawnAir(outlook, { warmth: warm, damp: damp[d]!, seed: 1 + rng.int(2 ** 31 - 2) })
    return runningMeans((hour) => deficitPa(airAt(nowMin + hour * 60)))
  })
  return STRETCHES.map((_, s) => {
    const draws = said.map((means) => means[s]!)
    const middle = meanOf(draws)
    return {
      below: draws.filter((draw) => draw < came[s]!).length / DRAWS,
      missPa: came[s]! - middle,
      spreadPa: Math.sqrt(meanOf(draws.map((draw) => (draw - middle) ** 2))),
    }
  })
}

const deficitPa = ({ tempC, rh }: { readonly tempC: number; readonly rh: number }): number =>
  saturationPressurePa(tempC) * (1 - rh)

/** Means from the first hour ahead to the end of each stretch. */
function runningMeans(valueAt: (hour: number) => number): number[] {
  let sum = 0
  let hour = 0
  return STRETCHES.map((stretch) => {
    while (hour < stretch) sum += valueAt(++hour)
    return sum / stretch
  })
}

function shuffledScores(rng: Rng): number[] {
  return Array.from({ length: DRAWS }, (_, i) => ({ score: normalQuantile((i + 0.5) / DRAWS), order: rng.next() }))
    .toSorted((a, b) => a.order - b.order)
    .map(({ score }) => score)
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length
