/** Moments and spans as a person would say them, by the studio's clock. */
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import type { Context } from './context.ts'

type Where = Pick<Context, 'zone' | 'locale'>

/** Formatters are dear to make; one for each zone, locale and shape is kept. */
const formatters = new Map<string, Intl.DateTimeFormat>()

function formatter({ zone, locale }: Where, shape: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${zone} ${locale} ${JSON.stringify(shape)}`
  const known = formatters.get(key) ?? new Intl.DateTimeFormat(locale, { timeZone: zone, ...shape })
  formatters.set(key, known)
  return known
}

const at = (minute: Minute): Date => new Date(minute * 60_000)

/** "16:40", or "4:40 pm" where people say it so. */
export const clockText = (minute: Minute, where: Where): string =>
  formatter(where, { hour: 'numeric', minute: '2-digit' }).format(at(minute)).replaceAll('\u202f', ' ')

/** "Tuesday 1 December", in the order of the locale. */
export const dateText = (minute: Minute, where: Where): string =>
  formatter(where, { weekday: 'long', day: 'numeric', month: 'long' }).format(at(minute))

/** A day of the calendar, YYYY-MM-DD, in the same words: no hour and no zone belong to it. */
export const calendarDayText = (day: string, { locale }: Pick<Context, 'locale'>): string =>
  dateText(Date.parse(day) / 60_000, { zone: 'UTC', locale })

/** "Tue 1 Dec", for tables. */
export const shortDateText = (minute: Minute, where: Where): string =>
  formatter(where, { weekday: 'short', day: 'numeric', month: 'short' }).format(at(minute))

/** The day by the studio's clock, as YYYY-MM-DD: for comparing, not for showing. */
export const dayKey = (minute: Minute, { zone }: Pick<Context, 'zone'>): string =>
  formatter({ zone, locale: 'en-CA' }, { year: 'numeric', month: '2-digit', day: '2-digit' }).format(at(minute))

/** The time by the studio's clock, as HH:MM: for fields and for reckoning, not for showing. */
export const clockKey = (minute: Minute, { zone }: Pick<Context, 'zone'>): string =>
  formatter({ zone, locale: 'en-GB' }, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(at(minute))

/** "today", "tomorrow", "yesterday", a weekday within six days, else the date. */
export function dayText(minute: Minute, context: Context): string {
  const day = dayKey(minute, context)
  if (day === dayKey(context.nowMin, context)) return 'today'
  if (day === dayKey(context.nowMin + MIN_PER_DAY, context)) return 'tomorrow'
  if (day === dayKey(context.nowMin - MIN_PER_DAY, context)) return 'yesterday'
  const isNear = minute > context.nowMin && minute - context.nowMin < 6 * MIN_PER_DAY
  return isNear ? formatter(context, { weekday: 'long' }).format(at(minute)) : dateText(minute, context)
}

/** "tomorrow 16:40". */
export const momentText = (minute: Minute, context: Context): string =>
  `${dayText(minute, context)} ${clockText(minute, context)}`

/** "Tuesday, 9:00 to 15:30", or with both days when they differ; with the zone's name in the hour that a clock shows twice. */
export function spanText(startMin: Minute, endMin: Minute, context: Context): string {
  const isSameDay = dayKey(startMin, context) === dayKey(endMin, context)
  const looksSame = isSameDay && endMin > startMin && clockKey(startMin, context) >= clockKey(endMin, context)
  const clock = looksSame && endMin - startMin < 2 * MIN_PER_HOUR ? clockWithZoneText : clockText
  const from = `${dayText(startMin, context)}, ${clock(startMin, context)}`
  return isSameDay
    ? `${from} to ${clock(endMin, context)}`
    : `${from} to ${dayText(endMin, context)} ${clock(endMin, context)}`
}

const clockWithZoneText = (minute: Minute, where: Where): string =>
  formatter(where, { hour: 'numeric', minute: '2-digit', timeZoneName: 'short' })
    .format(at(minute))
    .replaceAll('\u202f', ' ')

/** "35 min", "2 h", "2 h 40", "3 days". */
export function durationText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole < MIN_PER_HOUR) return `${whole} min`
  if (whole >= 2 * MIN_PER_DAY) return `${Math.round(whole / MIN_PER_DAY)} days`
  const rest = whole % MIN_PER_HOUR
  return rest === 0
    ? `${whole / MIN_PER_HOUR} h`
    : `${Math.floor(whole / MIN_PER_HOUR)} h ${String(rest).padStart(2, '0')}`
}

/** A first capital, for the beginning of a sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
