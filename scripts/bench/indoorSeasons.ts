import { readFileSync } from 'node:fs'
import { indoorFromOutdoor } from '#core/air/indoor.ts'
import type { AirReading } from '#core/air/types.ts'
import { seededRng } from '#core/rng.ts'

const DAY_MIN = 1_440
const MEMORY_MIN = 28 * DAY_MIN
const SET_POINT_C = 20

/** Room air hour by hour: the four weeks before count as log, from `fromMin` to `toMin` ware is cut. */
export type Season = {
  readonly name: string
  /** Real months by three, made-up stretches by themselves. */
  readonly season: string
  /** Whether constants of the outlook were fitted to this month's weather. @see FADE_HOURS, LEVEL_FADES_DAYS */
  readonly kind: 'fitted' | 'unseen' | 'made up'
  readonly fromMin: number
  readonly toMin: number
  readonly hours: readonly AirReading[]
}

/** Months, and whether the outlook was fitted to them. */
const months = [
  ['january', 'winter', 'unseen'],
  ['february', 'winter', 'fitted'],
  ['march', 'spring', 'fitted'],
  ['april', 'spring', 'unseen'],
  ['may', 'spring', 'fitted'],
  ['june', 'summer', 'fitted'],
  ['july', 'summer', 'unseen'],
  ['august', 'summer', 'fitted'],
  ['september', 'autumn', 'fitted'],
  ['october', 'autumn', 'unseen'],
  ['november', 'autumn', 'fitted'],
  ['december', 'winter', 'fitted'],
] as const

/** A year of real weather brought indoors by months, and three made-up stretches no year has. */
export function indoorSeasons(csvFile: string): Season[] {
  const year = readWeather(csvFile)
  return [
    ...months.map(([name, season, kind], month) => ({ name, season, kind, ...monthOf(year, month) })),
    madeUp('damp', 16, 0.8, 11),
    madeUp('hot', 31, 0.35, 12),
    madeUp('cold', 8, 0.6, 13),
  ]
}

function readWeather(csvFile: string): AirReading[] {
  const [head = '', ...lines] = readFileSync(csvFile, 'utf8').trim().split('\n')
  const columns = head.split(',')
  const [time, temp, rh] = ['time_utc', 'temp_c', 'rh_pct'].map((name) => columns.indexOf(name))
  return lines.flatMap((line) => {
    const fields = line.split(',')
    const outdoor = { tempC: Number(fields[temp!]), rh: Number(fields[rh!]) / 100 }
    const minute = Date.parse(fields[time!]!) / 60_000
    return Number.isFinite(minute + outdoor.tempC + outdoor.rh)
      ? [{ minute, ...indoorFromOutdoor(outdoor, SET_POINT_C) }]
      : []
  })
}

/** January has no December before it in the file: its log is as long as there is. */
function monthOf(year: readonly AirReading[], month: number): Pick<Season, 'fromMin' | 'toMin' | 'hours'> {
  const hours = bridged(year)
  const inMonth = hours.filter(({ minute }) => new Date(minute * 60_000).getUTCMonth() === month)
  const fromMin = inMonth[0]!.minute
  return {
    fromMin,
    toMin: inMonth.at(-1)!.minute,
    hours: hours.filter(({ minute }) => minute >= fromMin - MEMORY_MIN),
  }
}

/** Every hour once: missing ones repeat the one before. */
function bridged(readings: readonly AirReading[]): AirReading[] {
  const first = Math.ceil(readings[0]!.minute / 60)
  const last = Math.floor(readings.at(-1)!.minute / 60)
  let at = 0
  return Array.from({ length: last - first + 1 }, (_, i) => {
    const minute = (first + i) * 60
    while (at + 1 < readings.length && readings[at + 1]!.minute <= minute) at++
    return { ...readings[at]!, minute }
  })
}

function madeUp(name: string, tempC: number, rh: number, seed: number): Season {
  const rng = seededRng(seed)
  let weather = 0
  const hours = Array.from({ length: 65 * 24 }, (_, hour) => {
    weather = 0.985 * weather + 0.17 * rng.normal()
    const day = Math.sin((2 * Math.PI * (hour - 9)) / 24)
    return {
      minute: hour * 60,
      tempC: tempC + 2 * day - weather,
      rh: Math.min(0.95, Math.max(0.08, rh - 0.06 * day + 0.06 * weather)),
    }
  })
  return { name, season: name, kind: 'made up', fromMin: MEMORY_MIN, toMin: 52 * DAY_MIN, hours }
}
