/** The text of a recurrence rule, as far as hours need it. */
import { z } from 'zod'
import { mustBe } from './fields.ts'

const day = '[+-]?\\d{0,2}(MO|TU|WE|TH|FR|SA|SU)'
const number = '[+-]?\\d{1,3}'
const some = (one: string) => `${one}(,${one})*`
const parts = [
  'FREQ=(DAILY|WEEKLY|MONTHLY|YEARLY)',
  'INTERVAL=[1-9]\\d{0,2}',
  'COUNT=[1-9]\\d{0,3}',
  'UNTIL=\\d{8}(T\\d{6}Z?)?',
  `BYDAY=${some(day)}`,
  `BYMONTHDAY=${some(number)}`,
  `BYMONTH=${some('\\d{1,2}')}`,
  `BYYEARDAY=${some(number)}`,
  `BYWEEKNO=${some(number)}`,
  `BYSETPOS=${some(number)}`,
  'WKST=(MO|TU|WE|TH|FR|SA|SU)',
]
const rule = new RegExp(`^(${parts.join('|')})(;(${parts.join('|')}))*$`)

/**
 * A rule without DTSTART and without the word RRULE. Hours within a day have a start and a length of their own, so
 * parts below the day (BYHOUR, SECONDLY, ...) are refused.
 * @see RFC 5545, 3.3.10
 */
export function recurrence(what: string) {
  const error = mustBe(what, 'a recurrence rule by days, such as FREQ=WEEKLY;BYDAY=MO,WE')
  return z
    .string({ error })
    .max(300, { error })
    .regex(rule, { error })
    .refine(eachPartOnce, { error })
    .meta({ description: `${what}, an RFC 5545 recurrence rule without DTSTART` })
}

function eachPartOnce(text: string): boolean {
  const names = text.split(';').map((part) => part.split('=')[0])
  return (
    names.includes('FREQ') &&
    new Set(names).size === names.length &&
    !(names.includes('COUNT') && names.includes('UNTIL'))
  )
}
