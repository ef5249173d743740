/** Wall clocks of the studio, for fields: a day and a time, and the minute they mean. */
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { clockKey } from '#words/times.ts'

/**
 * The minute at which the studio's clock shows a time on a day.
 * @param time HH:MM
 * @returns undefined for what is no time; in the hour that a clock skips the time as far on as it would be
 */
export function minuteAtClock(dayStartMin: Minute, time: string, zone: string): Minute | undefined {
  const wanted = minutesOfDay(time)
  if (wanted === undefined) return undefined
  const guess = dayStartMin + wanted
  // On a day when clocks change, the hours since midnight are not the hours on the clock.
  const off = wanted - (minutesOfDay(clockKey(guess, { zone })) ?? wanted)
  const put = guess + off
  return clockKey(put, { zone }) === time ? put : guess
}

function minutesOfDay(time: string): number | undefined {
  const [, hours, minutes] = /^(\d{2}):(\d{2})$/.exec(time) ?? []
  if (hours === undefined || minutes === undefined || Number(hours) > 23 || Number(minutes) > 59) return undefined
  return Number(hours) * MIN_PER_HOUR + Number(minutes)
}
