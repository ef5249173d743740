import { minuteAt, wallAt } from '#app/calendar/zone.ts'
import { Refusal } from '#app/refusal.ts'

export type DateOrder = 'day-first' | 'month-first'

/** A time as some other program wrote it, and the line it stands in. */
export type WrittenTime = { readonly line: number; readonly text: string }

const MS_PER_MIN = 60_000
const clock = '(\\d{1,2}):(\\d\\d)(?::(\\d\\d)(?:[.,]\\d+)?)?\\s*([AaPp])?\\.?[Mm]?\\.?'
const yearFirst = new RegExp(`^(\\d{4})[-/.](\\d{1,2})[-/.](\\d{1,2})[T ,]+${clock}$`)
const yearLast = new RegExp(`^(\\d{1,2})([-/.])(\\d{1,2})[-/.](\\d{4}|\\d\\d)[T ,]+${clock}$`)
const withZone = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d(?::\d\d(?:\.\d+)?)?) ?(Z|[+-]\d\d:?\d\d)$/

/**
 * Times as moments in UTC, in the order given. With a zone of their own, or seconds or milliseconds since 1970, they mean
 * the same everywhere; all others are taken from the wall of the studio. Where day and month could be either, all rows
 * together decide: a 13 somewhere, or the order in which times rise. In the hour that the wall shows twice, times that
 * begin again are the second ones.
 * @throws Refusal naming the line, or asking for the order of day and month
 */
export function instantsOf(times: readonly WrittenTime[], zone: string, order?: DateOrder): string[] {
  const decided = order ?? orderOf(times, zone)
  const instants = times.map((time) => instantOf(time, zone, decided))
  const isRising = instants.length > 1 && instants[0]! < instants.at(-1)!
  return isRising ? withSecondHours(times, instants, zone) : instants
}

/** A logger goes on through the night on which clocks go back: what would lie before the row above is an hour later. */
function withSecondHours(times: readonly WrittenTime[], instants: readonly string[], zone: string): string[] {
  let before = ''
  return instants.map((at, index) => {
    const later = at <= before && !isAbsolute(times[index]!.text) ? secondOf(at, zone) : undefined
    return (before = later !== undefined && later > before ? later : at)
  })
}

const isAbsolute = (text: string): boolean => withZone.test(text) || /^\d+$/.test(text)

/** The other moment at which the wall shows the same; undefined where it shows it once. */
function secondOf(at: string, zone: string): string | undefined {
  const ms = Date.parse(at)
  const minute = Math.floor(ms / MS_PER_MIN)
  const backMin = BACK_MIN.find((back) => wallAt(minute + back, zone) === wallAt(minute, zone))
  return backMin === undefined ? undefined : new Date(ms + backMin * MS_PER_MIN).toISOString()
}

/** By how much clocks go back: everywhere an hour, on Lord Howe Island half of one. @see IANA time zone database */
const BACK_MIN = [60, 30]

function orderOf(times: readonly WrittenTime[], zone: string): DateOrder {
  const unsure = times.flatMap(({ text }) => {
    const [, first, separator, second] = yearLast.exec(text) ?? []
    return first && second && separator !== '.' ? [[Number(first), Number(second)] as const] : []
  })
  const dayFirst = unsure.some(([first]) => first > 12)
  const monthFirst = unsure.some(([, second]) => second > 12)
  if (dayFirst && monthFirst) throw refusal('Some dates have the day first and some the month.')
  if (unsure.length === 0 || dayFirst) return 'day-first'
  if (monthFirst) return 'month-first'
  const rises = (tried: DateOrder): boolean => {
    const instants = times.map((time) => instantOf(time, zone, tried))
    return instants.every((instant, index) => index === 0 || instant >= instants[index - 1]!)
  }
  const [byDay, byMonth] = [rises('day-first'), rises('month-first')]
  if (byDay === byMonth && unsure.some(([first, second]) => first !== second)) {
    throw refusal('Whether the day comes first in its dates or the month cannot be told; say which.')
  }
  return byDay ? 'day-first' : 'month-first'
}

function instantOf({ line, text }: WrittenTime, zone: string, order: DateOrder): string {
  if (/^\d{10}$/.test(text)) return new Date(Number(text) * 1000).toISOString()
  if (/^\d{13}$/.test(text)) return new Date(Number(text)).toISOString()
  const zoned = withZone.exec(text)
  if (zoned) return checked(Date.parse(`${zoned[1]}T${zoned[2]}${zoned[3]}`), line, text)
  const byYear = yearFirst.exec(text)
  if (byYear) {
    const [, year, month, day, ...time] = byYear
    return onTheWall([year!, month!, day!], time, zone, { line, text })
  }
  const byDay = yearLast.exec(text)
  if (!byDay) throw notATime(line, text)
  const [, first, separator, second, year, ...time] = byDay
  const [day, month] = separator === '.' || order === 'day-first' ? [first!, second!] : [second!, first!]
  return onTheWall([year!.length === 2 ? `20${year}` : year!, month, day], time, zone, { line, text })
}

function onTheWall(
  date: readonly [year: string, month: string, day: string],
  [hour, minute, second, half]: readonly (string | undefined)[],
  zone: string,
  { line, text }: WrittenTime,
): string {
  const pad = (part: string): string => part.padStart(2, '0')
  const hours = half ? (Number(hour) % 12) + (half.toLowerCase() === 'p' ? 12 : 0) : Number(hour)
  try {
    const startMin = minuteAt(date.map(pad).join('-'), `${pad(String(hours))}:${minute}`, zone)
    return checked(startMin * MS_PER_MIN + Number(second ?? 0) * 1000, line, text)
  } catch (error) {
    if (error instanceof Refusal) throw notATime(line, text)
    throw error
  }
}

function checked(ms: number, line: number, text: string): string {
  if (Number.isNaN(ms)) throw notATime(line, text)
  return new Date(ms).toISOString()
}

const notATime = (line: number, text: string): Refusal =>
  refusal(`Line ${line}: “${text}” is not a day and time. Write it as 2026-03-02 09:30.`, `line ${line}`)

const refusal = (message: string, path = 'times'): Refusal => new Refusal('invalid', message, [{ path, message }])
