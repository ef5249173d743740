import type { Minute } from '../time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '../units.ts'
import { checkedReadings, SENSOR_BIAS, type AirNote } from './readings.ts'
import type { AirOutlook, AirReading, AirWord } from './types.ts'
import { threeWordAir } from './words.ts'

export type OutlookOptions = {
  readonly fromMin: Minute
  readonly toMin: Minute
  /** Readings up to here are known; what lies beyond is outlook. */
  readonly nowMin: Minute
  /** What is added to a minute to make midnight of the studio's day fall on a whole day. */
  readonly dayOffsetMin: number
  readonly airSpeedMS: number
  /** Stands in where nothing is logged. */
  readonly word: AirWord
  /** Expected air of the spot, from a forecast already brought indoors; used where it reaches. */
  readonly forecast?: readonly AirReading[]
}

/** A spot's rhythm, level and strays are learned from the last four weeks. */
const MEMORY_DAYS = 28
/** A rhythm is believed after about so many days. */
const RHYTHM_DAYS = 4
/**
 * In the level a reading counts the less the older it is, by 1/e in so many days: seasons move on. Fitted to the months
 * named below, where the error of a ten-day mean of the vapour deficit fell from 174 to 166 Pa beside four weeks that
 * count alike; in the months left out it fell from 280 to 272 Pa.
 */
const LEVEL_FADES_DAYS = 20
/**
 * A departure from the usual fades over a day and a quarter; from then on only season and chance are left. Fitted, as
 * `RECENT_HOURS`, to hourly weather of a year (John F. Kennedy airport, 2013) brought indoors, its February, March, May,
 * June, August, September, November and December: errors were a third wider than believed when it was three days.
 */
const FADE_HOURS = 30
/** What counts as the latest departure, farther ahead than this: the mean over so many hours. */
const RECENT_HOURS = 12
/** Of a stray's variance, the share that lasts (a dry spell); the rest comes and goes. Same fit. */
const LASTING_SHARE = 0.1
/** How far the air of a spot strays once nothing is known of the day. Assumption. */
const USUAL_SWING = { tempK: 1.5, rh: 0.07 }
/** Weeks and months ahead the season moves on: added variance per day ahead, up to that of a year. */
const SEASON_PER_DAY = { tempK: 0.15, rh: 0.012 }
const SEASON_MOST = { tempK: 4, rh: 0.2 }
/** A forecast's error on its first day and what each further day adds, as share of the usual swing. */
const FORECAST_SHARE = 0.35
const FORECAST_SHARE_PER_DAY = 0.1
/** Gaps up to this are bridged straight; over longer ones the rhythm comes through. */
const BRIDGE_HOURS = 3
const GAP_FADE_HOURS = 24

/**
 * The air of a spot hour by hour over the log and the weeks to come: where it was read, as read; in gaps and beyond, the
 * spot's own rhythm of the day about its level, the level fading from the last days' to that of four weeks. The spread
 * grows with the distance from the nearest reading.
 * @returns an outlook that covers `fromMin` to `toMin`, and notes on what was wrong with the log; all numbers finite
 */
export function hourlyOutlook(
  readings: readonly AirReading[],
  options: OutlookOptions,
): { outlook: AirOutlook; notes: readonly AirNote[] } {
  const checked = checkedReadings(readings, options.nowMin)
  const known = hourly(checked.readings.filter(({ minute }) => minute <= options.nowMin))
  const expected = hourly(checkedReadings(options.forecast ?? [], options.toMin).readings)
  const habit = habitOf(known, options)
  const firstHour = Math.floor(options.fromMin / MIN_PER_HOUR)
  const lastHour = Math.max(firstHour + 1, Math.ceil(options.toMin / MIN_PER_HOUR))
  const hours = Array.from({ length: lastHour - firstHour + 1 }, (_, i) => firstHour + i)
  const near = nearestKnown(known, hours)
  const air = hours.map((hour, i) => airAtHour(hour, near[i]!, habit, expected, options))
  return {
    outlook: {
      startMin: firstHour * MIN_PER_HOUR,
      tempC: air.map(({ tempC }) => tempC),
      rh: air.map(({ rh }) => rh),
      airSpeedMS: air.map(() => options.airSpeedMS),
      tempSpreadK: air.map(({ tempSpreadK }) => tempSpreadK),
      rhSpread: air.map(({ rhSpread }) => rhSpread),
      tempLastingK: air.map(({ tempLastingK }) => tempLastingK),
      rhLasting: air.map(({ rhLasting }) => rhLasting),
    },
    notes: checked.notes,
  }
}

type HourAir = { readonly tempC: number; readonly rh: number }
/** Spreads of one quantity: all of it, and what of it stays the same from hour to hour. */
type Spreads = { readonly spread: number; readonly lasting: number }
type HourSpread = HourAir & {
  readonly tempSpreadK: number
  readonly rhSpread: number
  readonly tempLastingK: number
  readonly rhLasting: number
}

/** Readings averaged by the whole hour nearest to them. */
function hourly(readings: readonly AirReading[]): Map<number, HourAir> {
  const sums = new Map<number, { tempC: number; rh: number; count: number }>()
  for (const { minute, tempC, rh } of readings) {
    const hour = Math.round(minute / MIN_PER_HOUR)
    const sum = sums.get(hour) ?? { tempC: 0, rh: 0, count: 0 }
    sums.set(hour, { tempC: sum.tempC + tempC, rh: sum.rh + rh, count: sum.count + 1 })
  }
  return new Map([...sums].map(([hour, { tempC, rh, count }]) => [hour, { tempC: tempC / count, rh: rh / count }]))
}

/** What a spot does of itself: its level over four weeks, its rhythm of the day about it, and how far days stray. */
type Habit = {
  readonly level: HourAir
  /** By hour of the studio's day. */
  readonly rhythm: readonly HourAir[]
  readonly swing: HourAir
  readonly hourOfDay: (hour: number) => number
}

function habitOf(known: ReadonlyMap<number, HourAir>, options: OutlookOptions): Habit {
  const hourOfDay = (hour: number): number => {
    const minuteOfDay = (hour * MIN_PER_HOUR + options.dayOffsetMin) % MIN_PER_DAY
    return Math.floor((minuteOfDay < 0 ? minuteOfDay + MIN_PER_DAY : minuteOfDay) / MIN_PER_HOUR)
  }
  const word = threeWordAir(options.word)
  const lastHour = Math.max(...known.keys(), -Infinity)
  const recent = [...known].filter(([hour]) => hour > lastHour - MEMORY_DAYS * 24)
  // A log of a few hours says little about four weeks: the word counts as a day's worth of readings.
  const weights = recent.map(([hour]) => Math.exp((hour - lastHour) / (24 * LEVEL_FADES_DAYS)))
  const weighed = (key: keyof HourAir): number =>
    recent.reduce((sum, [, air], i) => sum + weights[i]! * air[key], 24 * word[key]) /
    weights.reduce((sum, weight) => sum + weight, 24)
  const level = { tempC: weighed('tempC'), rh: weighed('rh') }
  const rhythm = Array.from({ length: 24 }, (_, wanted) => {
    const same = recent.filter(([hour]) => hourOfDay(hour) === wanted)
    const weight = same.length + RHYTHM_DAYS
    const dayMean = { tempC: sumOf(recent, 'tempC') / recent.length, rh: sumOf(recent, 'rh') / recent.length }
    return same.length === 0
      ? { tempC: 0, rh: 0 }
      : {
          tempC: (sumOf(same, 'tempC') - same.length * dayMean.tempC) / weight,
          rh: (sumOf(same, 'rh') - same.length * dayMean.rh) / weight,
        }
  })
  const strayed = (key: keyof HourAir, usual: number): number => {
    const squares = recent.reduce(
      (sum, [hour, air]) => sum + (air[key] - level[key] - rhythm[hourOfDay(hour)]![key]) ** 2,
      0,
    )
    return Math.sqrt((squares + 48 * usual ** 2) / (recent.length + 48))
  }
  const swing = {
    tempC: recent.length > 0 ? strayed('tempC', USUAL_SWING.tempK) : word.tempSpreadK,
    rh: recent.length > 0 ? strayed('rh', USUAL_SWING.rh) : word.rhSpread,
  }
  return { level, rhythm, swing, hourOfDay }
}

const sumOf = (airs: readonly (readonly [number, HourAir])[], key: keyof HourAir): number =>
  airs.reduce((sum, [, air]) => sum + air[key], 0)

type Near = {
  readonly before: number | undefined
  readonly after: number | undefined
  readonly known: ReadonlyMap<number, HourAir>
}

/** For each hour the nearest hours before and after (or at) it that were read. */
function nearestKnown(known: ReadonlyMap<number, HourAir>, hours: readonly number[]): Near[] {
  const read = [...known.keys()].toSorted((a, b) => a - b)
  let next = 0
  return hours.map((hour) => {
    while (next < read.length && read[next]! < hour) next++
    const at = read[next]
    return { before: at === hour ? hour : read[next - 1], after: at, known }
  })
}

function airAtHour(
  hour: number,
  near: Near,
  habit: Habit,
  expected: ReadonlyMap<number, HourAir>,
  options: OutlookOptions,
): HourSpread {
  const { before, after, known } = near
  if (before === hour) return withSpread(known.get(hour)!, spreadOf('tempK', 0, 0), spreadOf('rh', 0, 0))
  const usual = usualAt(habit, hour)
  const forecast = expected.get(hour)
  if (forecast && hour * MIN_PER_HOUR > options.nowMin) return forecastAir(hour, forecast, habit, options)
  const fadeHours = after === undefined ? FADE_HOURS : GAP_FADE_HOURS
  const sides = [before, after].filter((side) => side !== undefined)
  const distance = sides.length > 0 ? Math.min(...sides.map((side) => Math.abs(hour - side))) : Infinity
  const straight = before !== undefined && after !== undefined && after - before <= 2 * BRIDGE_HOURS
  const departure = departureAt(hour, sides, near, habit, straight ? Infinity : fadeHours)
  const lost = straight ? 0.25 : Math.sqrt(1 - Math.exp((-2 * distance) / fadeHours))
  // Where nothing was ever read, the word's own spread says all there is to say; there is no reading to grow old.
  const days = after === undefined && Number.isFinite(distance) ? distance / 24 : 0
  return withSpread(
    { tempC: usual.tempC + departure.tempC, rh: humidity(usual.rh + departure.rh) },
    spreadOf('tempK', habit.swing.tempC * lost, season('tempK', days)),
    spreadOf('rh', habit.swing.rh * lost, season('rh', days)),
  )
}

const withSpread = (air: HourAir, temp: Spreads, rh: Spreads): HourSpread => ({
  ...air,
  tempSpreadK: temp.spread,
  tempLastingK: temp.lasting,
  rhSpread: rh.spread,
  rhLasting: rh.lasting,
})

/** The sensor's bias and the season last; of the weather, a share. */
function spreadOf(key: keyof typeof SENSOR_BIAS, weather: number, seasonal: number): Spreads {
  const lasting = Math.hypot(SENSOR_BIAS[key], seasonal, Math.sqrt(LASTING_SHARE) * weather)
  return { spread: Math.hypot(lasting, Math.sqrt(1 - LASTING_SHARE) * weather), lasting }
}

const season = (key: keyof typeof SENSOR_BIAS, days: number): number =>
  Math.min(SEASON_MOST[key], SEASON_PER_DAY[key] * Math.sqrt(days))

const humidity = (rh: number): number => Math.min(0.99, Math.max(0.03, rh))

function usualAt({ level, rhythm, hourOfDay }: Habit, hour: number): HourAir {
  const beat = rhythm[hourOfDay(hour)]!
  return { tempC: level.tempC + beat.tempC, rh: level.rh + beat.rh }
}

/** How far the hours read nearest strayed from the usual, fading with distance; between two, nearer counts more. */
function departureAt(
  hour: number,
  sides: readonly number[],
  { known }: Near,
  habit: Habit,
  fadeHours: number,
): HourAir {
  let tempC = 0
  let rh = 0
  const total = sides.reduce((sum, side) => sum + 1 / Math.abs(hour - side), 0)
  for (const side of sides) {
    const share = (1 / Math.abs(hour - side) / total) * Math.exp(-Math.abs(hour - side) / fadeHours)
    const stray = recentDeparture(side, known, habit, Math.abs(hour - side))
    tempC += share * stray.tempC
    rh += share * stray.rh
  }
  return { tempC, rh }
}

/** Departure at an hour read: close by that hour alone counts, farther off the mean of the half day before it. */
function recentDeparture(hour: number, known: ReadonlyMap<number, HourAir>, habit: Habit, distance: number): HourAir {
  const reach = Math.min(RECENT_HOURS, Math.max(0, Math.floor(distance)))
  let tempC = 0
  let rh = 0
  let count = 0
  for (let at = hour - reach; at <= hour; at++) {
    const air = known.get(at)
    if (!air) continue
    const usual = usualAt(habit, at)
    tempC += air.tempC - usual.tempC
    rh += air.rh - usual.rh
    count++
  }
  return count === 0 ? { tempC: 0, rh: 0 } : { tempC: tempC / count, rh: rh / count }
}

function forecastAir(hour: number, forecast: HourAir, habit: Habit, options: OutlookOptions): HourSpread {
  const days = Math.max(0, hour * MIN_PER_HOUR - options.nowMin) / MIN_PER_DAY
  const share = Math.min(1, FORECAST_SHARE + FORECAST_SHARE_PER_DAY * days)
  return withSpread(
    { tempC: forecast.tempC, rh: humidity(forecast.rh) },
    spreadOf('tempK', share * habit.swing.tempC, 0),
    spreadOf('rh', share * habit.swing.rh, 0),
  )
}
