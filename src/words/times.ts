/** Moments and spans as a person would say them, by the studio's clock. */
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import type { Context } from './context.ts'

type Where = Pick<Context, 'zone' | 'locale'>

const shapes = {
  clock: { hour: 'numeric', minute: '2-digit' },
  'clock with zone': { hour: 'numeric', minute: '2-digit', timeZoneName: 'short' },
  'clock key': { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
  date: { weekday: 'long', day: 'numeric', month: 'long' },
  'short date': { weekday: 'short', day: 'numeric', month: 'short' },
  'day key': { year: 'numeric', month: '2-digit', day: '2-digit' },
  weekday: { weekday: 'long' },
} as const satisfies Record<string, Intl.DateTimeFormatOptions>

type Teller = { readonly format: (minute: Minute) => string; readonly said: Map<Minute, string> }

/**
 * Formatters are dear to make and not cheap to use, and a screen that is drawn again after a tap says the same moments
 * again: both are kept, by zone, locale and shape.
 */
const tellers = new Map<string, Teller>()
const MOST_KEPT = 4_096

function told(minute: Minute, { zone, locale }: Where, shape: keyof typeof shapes): string {
  const key = `${zone} ${locale} ${shape}`
  let teller = tellers.get(key)
  if (!teller) {
    const formatter = new Intl.DateTimeFormat(locale, { timeZone: zone, ...shapes[shape] })
    const format = (moment: Minute) => formatter.format(new Date(moment * 60_000)).replaceAll('\u202f', ' ')
    teller = { format, said: new Map() }
    tellers.set(key, teller)
  }
  const { said, format } = teller
  const known = said.get(minute)
  if (known !== undefined) return known
  if (said.size >= MOST_KEPT) said.clear()
  const text = format(minute)
  said.set(minute, text)
  return text
}

/** "16:40", or "4:40 pm" where people say it so. */
export const clockText = (minute: Minute, where: Where): string => told(minute, where, 'clock')

/** "Tuesday 1 December", in the order of the locale. */
export const dateText = (minute: Minute, where: Where): string => told(minute, where, 'date')

/** A day of the calendar, YYYY-MM-DD, in the same words: no hour and no zone belong to it. */
export const calendarDayText = (day: string, { locale }: Pick<Context, 'locale'>): string =>
  dateText(Date.parse(day) / 60_000, { zone: 'UTC', locale })

/** "Tue 1 Dec", for tables. */
export const shortDateText = (minute: Minute, where: Where): string => told(minute, where, 'short date')

/** The day by the studio's clock, as YYYY-MM-DD: for comparing, not for showing. */
export const dayKey = (minute: Minute, { zone }: Pick<Context, 'zone'>): string =>
  told(minute, { zone, locale: 'en-CA' }, 'day key')

/** The time by the studio's clock, as HH:MM: for fields and for reckoning, not for showing. */
export const clockKey = (minute: Minute, { zone }: Pick<Context, 'zone'>): string =>
  told(minute, { zone, locale: 'en-GB' }, 'clock key')

/** "today", "tomorrow", "yesterday", a weekday within six days, else the date. */
export function dayText(minute: Minute, context: Context, farDayText = dateText): string {
  const day = dayKey(minute, context)
  if (day === dayKey(context.nowMin, context)) return 'today'
  if (day === dayKey(context.nowMin + MIN_PER_DAY, context)) return 'tomorrow'
  if (day === dayKey(context.nowMin - MIN_PER_DAY, context)) return 'yesterday'
  const isNear = minute > context.nowMin && minute - context.nowMin < 6 * MIN_PER_DAY
  return isNear ? told(minute, context, 'weekday') : farDayText(minute, context)
}

/** "tomorrow 16:40". */
export const momentText = (minute: Minute, context: Context): string =>
  `${dayText(minute, context)} ${clockText(minute, context)}`

/** "tomorrow 16:40", but "Tue 1 Dec 16:40" where the day is far: for tables. */
export const shortMomentText = (minute: Minute, context: Context): string =>
  `${dayText(minute, context, shortDateText)} ${clockText(minute, context)}`

/** "Tuesday, 9:00 to 15:30", or with both days when they differ; with the zone's name in the hour that a clock shows twice. */
export function spanText(startMin: Minute, endMin: Minute, context: Context): string {
  const isSameDay = dayKey(startMin, context) === dayKey(endMin, context)
  const looksSame = isSameDay && endMin > startMin && clockKey(startMin, context) >= clockKey(endMin, context)
  const clock = looksSame && endMin - startMin < 2 * MIN_PER_HOUR ? clockWithZoneText : clockText
  return isSameDay
    ? `${dayText(startMin, context)}, ${clock(startMin, context)} to ${clock(endMin, context)}`
    : `${momentText(startMin, context)} to ${momentText(endMin, context)}`
}

const clockWithZoneText = (minute: Minute, where: Where): string => told(minute, where, 'clock with zone')

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
