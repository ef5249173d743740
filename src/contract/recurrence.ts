/** The text of a recurrence rule, as far as hours need it. */
import { z } from 'zod'
import { mustBe } from './fields.ts'

const weekday = '(MO|TU|WE|TH|FR|SA|SU)'
const upTo31 = '[+-]?0*([1-9]|[12]\\d|3[01])'
const upTo53 = '[+-]?0*([1-9]|[1-4]\\d|5[0-3])'
const upTo366 = '[+-]?0*([1-9]|[1-9]\\d|[12]\\d\\d|3[0-5]\\d|36[0-6])'
const one = (form: string): RegExp => new RegExp(`^(${form})$`)
const some = (form: string): RegExp => new RegExp(`^(${form})(,(${form}))*$`)

/** How each part is written. Hours have a start and a length of their own, so there are no parts below the day. */
const forms: Readonly<Record<string, RegExp>> = {
  FREQ: one('DAILY|WEEKLY|MONTHLY|YEARLY'),
  INTERVAL: one('[1-9]\\d{0,2}'),
  COUNT: one('[1-9]\\d{0,3}'),
  UNTIL: one('\\d{4}(0[1-9]|1[0-2])(0[1-9]|[12]\\d|3[01])(T([01]\\d|2[0-3])[0-5]\\d[0-5]\\dZ?)?'),
  WKST: one(weekday),
  BYDAY: some(`(${upTo53})?${weekday}`),
  BYMONTHDAY: some(upTo31),
  BYMONTH: some('0?[1-9]|1[0-2]'),
  BYYEARDAY: some(upTo366),
  BYWEEKNO: some(upTo53),
  BYSETPOS: some(upTo366),
}

/**
 * Whether a text is a recurrence rule by days, without DTSTART and the word RRULE, each part once and where it may stand.
 * @see RFC 5545, 3.3.10 and its table
 */
export function isRecurrence(text: string): boolean {
  const pairs = text.split(';').map((part) => part.split('='))
  const parts = new Map(pairs.map(([name = '', value = '']) => [name, value]))
  const isWritten = pairs.every(
    ([name = '', value = '', ...more]) => Object.hasOwn(forms, name) && forms[name]!.test(value) && more.length === 0,
  )
  return isWritten && parts.has('FREQ') && parts.size === pairs.length && standsWhereItMay(parts)
}

function standsWhereItMay(parts: ReadonlyMap<string, string>): boolean {
  const freq = parts.get('FREQ')
  const byDay = parts.get('BYDAY') ?? ''
  const countsDays = /\d/.test(byDay)
  // No month has a sixth Monday.
  const countsTooFar = /[6-9]|\d\d/.test(byDay)
  return !(
    (parts.has('COUNT') && parts.has('UNTIL')) ||
    (parts.has('BYMONTHDAY') && freq === 'WEEKLY') ||
    ((parts.has('BYYEARDAY') || parts.has('BYWEEKNO')) && freq !== 'YEARLY') ||
    (countsDays && (freq === 'DAILY' || freq === 'WEEKLY' || parts.has('BYWEEKNO'))) ||
    (countsTooFar && freq === 'MONTHLY')
  )
}

/** A field with such a rule. */
export function recurrence(what: string) {
  const error = mustBe(what, 'a recurrence rule by days, such as FREQ=WEEKLY;BYDAY=MO,WE')
  return z
    .string({ error })
    .max(300, { error, abort: true })
    .refine(isRecurrence, { error })
    .meta({ description: `${what}, an RFC 5545 recurrence rule without DTSTART` })
}
