import { Refusal } from '#app/refusal.ts'
import { isRecurrence } from '#contract/recurrence.ts'
import { RRule } from './rruleLibrary.ts'

const MS_PER_DAY = 86_400_000

/** Wall clock times as if the wall were in UTC, in milliseconds; ends included. */
export type WallSpan = { readonly fromMs: number; readonly toMs: number }

/**
 * When a rule comes round, on the wall. It comes round only on days that the rule itself names: a first day that does
 * not fit the rule is none.
 * @param text RFC 5545 recurrence rule by days, without DTSTART and the word RRULE
 * @param startMs wall clock of the first day: the rule's DTSTART
 * @param wallOfUtc turns the instant of an UNTIL in UTC into wall clock time
 * @returns wall clock times within the span, rising
 * @throws Refusal for a rule that is none, or goes below the day
 * @see RFC 5545, 3.3.10
 */
export function recurrencesOf(
  text: string,
  startMs: number,
  span: WallSpan,
  wallOfUtc: (utcMs: number) => number,
): number[] {
  const parts = partsOf(text)
  const until = parts.get('UNTIL')
  const untilMs = until ? untilWallMs(until, wallOfUtc) : Infinity
  if (parts.get('FREQ') === 'DAILY') return dailyRecurrences(parts, startMs, untilMs, span)
  if (parts.get('FREQ') === 'WEEKLY' && !someWeekFits(parts)) return []
  const rest = [...parts].filter(([name]) => name !== 'UNTIL').map((part) => part.join('='))
  const rule = new RRule({ ...RRule.parseString(rest.join(';')), dtstart: new Date(startMs) })
  return rule.between(new Date(span.fromMs), new Date(Math.min(untilMs, span.toMs)), true).map((wall) => wall.getTime())
}

/**
 * Every so many days, of which the other parts of the rule only take some away. The library would look for the next day
 * that fits until the year 9999, half a minute for a rule that never fits (every seventh day from a Tuesday, if a Monday).
 */
function dailyRecurrences(parts: Parts, startMs: number, untilMs: number, span: WallSpan): number[] {
  const stepMs = Number(parts.get('INTERVAL') ?? 1) * MS_PER_DAY
  const most = Number(parts.get('COUNT') ?? Infinity)
  const isDay = dayTestOf(parts)
  // A count is of days that fit, from the first on; without one there is no need to begin there.
  const skipped = most < Infinity ? 0 : Math.max(0, Math.ceil((span.fromMs - startMs) / stepMs))
  const found: number[] = []
  for (let ms = startMs + skipped * stepMs; ms <= Math.min(untilMs, span.toMs) && found.length < most; ms += stepMs) {
    if (isDay(ms)) found.push(ms)
  }
  return found.filter((ms) => ms >= span.fromMs)
}

/** From Sunday, as dates count. */
const weekdays = ['SU', 'MO', 'TU', 'WE', 'TH', 'FR', 'SA']

/** Whether a day stays in a daily rule. Its set of days has one member, the first and the last at once. */
function dayTestOf(parts: Parts): (wallMs: number) => boolean {
  const numbers = (name: string): number[] | undefined => parts.get(name)?.split(',').map(Number)
  const months = numbers('BYMONTH')
  const monthDays = numbers('BYMONTHDAY')
  const days = parts.get('BYDAY')?.split(',')
  const positions = numbers('BYSETPOS')
  if (positions && !positions.some((position) => Math.abs(position) === 1)) return () => false
  return (wallMs) => {
    const wall = new Date(wallMs)
    const monthDay = wall.getUTCDate()
    return (
      (months?.includes(wall.getUTCMonth() + 1) ?? true) &&
      (monthDays?.some((one) => one === monthDay || one === monthDay - daysInMonth(wall) - 1) ?? true) &&
      (days?.includes(weekdays[wall.getUTCDay()]!) ?? true)
    )
  }
}

/** The library would look for a third day in a week of two until the year 9999 as well. */
function someWeekFits(parts: Parts): boolean {
  const dayCount = parts.get('BYDAY')?.split(',').length ?? 1
  const positions = parts.get('BYSETPOS')?.split(',') ?? ['1']
  return positions.some((position) => Math.abs(Number(position)) <= dayCount)
}

const daysInMonth = (wall: Date): number =>
  new Date(Date.UTC(wall.getUTCFullYear(), wall.getUTCMonth() + 1, 0)).getUTCDate()

/** An UNTIL that is a day is the whole day; one in UTC is an instant; one without zone is on the wall. */
function untilWallMs(until: string, wallOfUtc: (utcMs: number) => number): number {
  const [, date, time = '235959'] = /^(\d{8})(?:T(\d{6}))?/.exec(until)!
  const digits = `${date}${time}`.match(/\d\d/g)!.map(Number)
  const [century = 0, year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0] = digits
  const utcMs = Date.UTC(century * 100 + year, month - 1, day, hour, minute, second)
  return until.endsWith('Z') ? wallOfUtc(utcMs) : utcMs
}

type Parts = ReadonlyMap<string, string>

function partsOf(text: string): Parts {
  if (!isRecurrence(text)) throw noSuchRule(text)
  return new Map(text.split(';').map((part) => part.split('=') as [name: string, value: string]))
}

const noSuchRule = (text: string): Refusal =>
  new Refusal(
    'invalid',
    `Hours cannot come back by “${text}”. Write a rule by days, such as FREQ=WEEKLY;BYDAY=MO,WE.`,
    [{ path: 'rrule', message: 'must be a recurrence rule by days, such as FREQ=WEEKLY;BYDAY=MO,WE' }],
  )
