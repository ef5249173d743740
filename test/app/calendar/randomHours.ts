import { RRuleTemporal } from 'rrule-temporal'
import { Temporal } from 'temporal-polyfill'
import { intervalsOf } from '#app/calendar/hours.ts'
import type { HoursRule } from '#app/calendar/types.ts'
import { type Rng, seededRng } from '#core/rng.ts'
import { unionOf } from '#core/time.ts'

export const zones = [
  'UTC',
  'Europe/London',
  'America/New_York',
  'America/Santiago',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'Pacific/Auckland',
] as const

/** Any rule that hours may have, with days left out and added, over some months around clock changes. */
export function randomHours(rng: Rng): { hours: HoursRule; zone: string; fromMin: number; toMin: number } {
  const startDate = randomDay(rng, 2024)
  const fromMin = Math.floor(Date.parse(`${randomDay(rng, 2025)}T00:00Z`) / 60_000) + rng.int(1440)
  // An UNTIL in UTC is an instant, which only a library with zones can answer.
  const startTime = one(rng, [...daytimes, '00:00', '00:30', '01:30', '02:00', '02:15', '02:45', '23:45'])
  const hours = {
    rrule: randomRule(rng, daytimes.includes(startTime) ? 'T120000Z' : 'T120000'),
    startDate,
    startTime,
    durationMin: 1 + rng.int(900),
    exceptDates: some(rng, 3, () => randomDay(rng, 2025)),
    extraDates: some(rng, 3, () => randomDay(rng, 2025)),
  }
  return { hours, zone: one(rng, zones), fromMin, toMin: fromMin + 1440 * (1 + rng.int(400)) }
}

type Asked = ReturnType<typeof randomHours>

/**
 * The same hours by a second library: recurrences on the wall, put into the zone by Temporal, whose 'compatible' reading is that
 * of RFC 5545, 3.3.5 (skipped: offset before the gap; twice: the first).
 */
function hoursOnWall(asked: Asked) {
  const { zone, fromMin, toMin } = asked
  const dayMin = 1440
  return cut(
    asked,
    startsOf(asked, 'UTC', fromMin - 2 * dayMin, toMin + 2 * dayMin).map(
      (start) =>
        start.toPlainDateTime().toZonedDateTime(zone, { disambiguation: 'compatible' }).epochMilliseconds / 60_000,
    ),
  )
}

/** The same by the second library's own zones. It leaves out what the wall skips, so it is asked for daytime hours alone. */
const hoursInZone = (asked: Asked) =>
  cut(
    asked,
    startsOf(asked, asked.zone, asked.fromMin, asked.toMin).map((start) => start.epochMilliseconds / 60_000),
  )

function startsOf({ hours }: Asked, zone: string, fromMin: number, toMin: number): Temporal.ZonedDateTime[] {
  const compact = (date: string) => `${date.replaceAll('-', '')}T${hours.startTime.replace(':', '')}00`
  const dates = (name: string, days: readonly string[]) =>
    days.length ? [`${name};TZID=${zone}:${days.map(compact).join(',')}`] : []
  const lines = [
    `DTSTART;TZID=${zone}:${compact(hours.startDate)}`,
    // On the wall alone, the wall is in UTC.
    `RRULE:${zone === 'UTC' ? hours.rrule.replace(/UNTIL=(\w{15})(?!Z)/, 'UNTIL=$1Z') : hours.rrule}`,
    ...dates('RDATE', hours.extraDates),
    ...dates('EXDATE', hours.exceptDates),
  ]
  const at = (minute: number) => Temporal.Instant.fromEpochMilliseconds(minute * 60_000).toZonedDateTimeISO(zone)
  return new RRuleTemporal({ rruleString: lines.join('\n') }).between(at(fromMin - hours.durationMin), at(toMin), true)
}

const cut = ({ hours, fromMin, toMin }: Asked, starts: readonly number[]) =>
  unionOf(
    starts.map((startMin) => ({
      startMin: Math.max(startMin, fromMin),
      endMin: Math.min(startMin + hours.durationMin, toMin),
    })),
  )

/** Compares ours with both on random hours. */
export function compareHours(cases: number, seed: number): { failures: number; report: string; intervals: number } {
  const rng = seededRng(seed)
  const wrong: string[] = []
  let intervals = 0
  for (let index = 0; index < cases; index++) {
    const asked = randomHours(rng)
    const ours = intervalsOf([asked.hours], [], asked.zone, asked.fromMin, asked.toMin)
    const utcUntil = asked.hours.rrule.includes('00Z')
    const theirs = [...(utcUntil ? [] : [hoursOnWall(asked)]), ...(isDaytime(asked) ? [hoursInZone(asked)] : [])]
    intervals += ours.length
    if (theirs.length === 0 || theirs.some((others) => JSON.stringify(others) !== JSON.stringify(ours))) {
      wrong.push(JSON.stringify({ asked, ours, theirs }).slice(0, 1500))
    }
  }
  return { failures: wrong.length, report: wrong.slice(0, 5).join('\n'), intervals }
}

const daytimes = ['08:30', '19:00']
const isDaytime = ({ hours }: Asked): boolean => daytimes.includes(hours.startTime)

const weekdays = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU']

function randomRule(rng: Rng, untilTime: string): string {
  const freq = one(rng, ['DAILY', 'WEEKLY', 'WEEKLY', 'MONTHLY', 'YEARLY'])
  const yearly = freq === 'YEARLY'
  const parts = [`FREQ=${freq}`]
  const maybe = (odds: number, part: () => string) => void (rng.next() < odds && parts.push(part()))
  maybe(0.4, () => `INTERVAL=${1 + rng.int(yearly ? 2 : 4)}`)
  if (freq === 'DAILY' || freq === 'WEEKLY') maybe(0.6, () => `BYDAY=${someOf(rng, weekdays)}`)
  if (freq === 'DAILY') maybe(0.2, () => `BYMONTHDAY=${monthDays(rng)}`)
  if (freq === 'MONTHLY')
    parts.push(
      one(rng, [`BYDAY=${ordinalDays(rng, 4)}`, `BYMONTHDAY=${monthDays(rng)}`, `BYDAY=${someOf(rng, weekdays)}`]),
    )
  if (yearly) {
    parts.push(
      one(rng, [
        `BYMONTH=${1 + rng.int(12)};BYDAY=${ordinalDays(rng, 4)}`,
        `BYYEARDAY=${1 + rng.int(365)},${-1 - rng.int(365)}`,
        `BYWEEKNO=${1 + rng.int(52)};BYDAY=${one(rng, weekdays)}`,
        `BYMONTH=${1 + rng.int(12)};BYMONTHDAY=${monthDays(rng)}`,
        `BYDAY=${ordinalDays(rng, 50)}`,
      ]),
    )
  } else maybe(0.2, () => `BYMONTH=${1 + rng.int(6)},${7 + rng.int(6)}`)
  if (freq === 'MONTHLY') maybe(0.2, () => `BYSETPOS=${one(rng, ['1', '-1', '2', '1,-1'])}`)
  maybe(0.3, () =>
    one(rng, [`COUNT=${1 + rng.int(200)}`, `UNTIL=${randomDay(rng, 2025).replaceAll('-', '')}${untilTime}`]),
  )
  maybe(0.3, () => `WKST=${one(rng, ['MO', 'SU', 'WE'])}`)
  return parts.join(';')
}

const one = <T>(rng: Rng, list: readonly T[]): T => list[rng.int(list.length)]!
const some = <T>(rng: Rng, below: number, make: () => T): T[] => [
  ...new Set(Array.from({ length: rng.int(below) }, make)),
]
const someOf = (rng: Rng, list: readonly string[]): string => {
  const kept = list.filter(() => rng.next() < 0.4)
  return kept.length > 0 ? kept.join(',') : one(rng, list)
}
const monthDays = (rng: Rng): string => `${1 + rng.int(31)},${-1 - rng.int(31)}`
const ordinalDays = (rng: Rng, upTo: number): string =>
  `${one(rng, ['', '-'])}${1 + rng.int(upTo)}${one(rng, weekdays)}`
const randomDay = (rng: Rng, year: number): string =>
  new Date(Date.UTC(year, 0, 1) + rng.int(600) * 86_400_000).toISOString().slice(0, 10)
