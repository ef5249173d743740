/** Days by the studio's clock, also those on which it is put forward or back. */
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { dayKey } from '#words/times.ts'

/** Midnights fall on quarters of an hour in every zone now in use. */
const QUARTER_MIN = 15
/** The shortest day there is has an hour less than usual. */
const SHORTEST_DAY_MIN = MIN_PER_DAY - 60

/** The first minute of the day in which a minute lies. */
export function dayStart(minute: Minute, zone: string): Minute {
  const day = dayKey(minute, { zone })
  let start = Math.floor(minute / QUARTER_MIN) * QUARTER_MIN
  while (dayKey(start - QUARTER_MIN, { zone }) === day) start -= QUARTER_MIN
  return start
}

/** The first minutes of so many days, from the one in which a minute lies. */
export function dayStarts(minute: Minute, count: number, zone: string): Minute[] {
  const starts = [dayStart(minute, zone)]
  while (starts.length < count) starts.push(nextDayStart(starts.at(-1)!, zone))
  return starts
}

function nextDayStart(start: Minute, zone: string): Minute {
  const day = dayKey(start, { zone })
  let next = start + SHORTEST_DAY_MIN
  while (dayKey(next, { zone }) === day) next += QUARTER_MIN
  return next
}
