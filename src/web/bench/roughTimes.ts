/** "This morning" as a moment and how far it may be off. */
import type { Minute } from '#core/time.ts'

export const roughTimes = ['just now', 'this morning', 'around noon', 'this afternoon', 'this evening'] as const
export type RoughTime = (typeof roughTimes)[number]

/** Hour of the day in the middle, and half the width in minutes. */
const middles: Readonly<Record<Exclude<RoughTime, 'just now'>, { readonly hour: number; readonly roughMin: number }>> =
  {
    'this morning': { hour: 10, roughMin: 120 },
    'around noon': { hour: 12.5, roughMin: 75 },
    'this afternoon': { hour: 15.5, roughMin: 120 },
    'this evening': { hour: 19.5, roughMin: 120 },
  }

/**
 * Never later than now: nothing has happened in the future.
 * @param dayStartMin midnight in the studio
 */
export function roughMoment(time: RoughTime, dayStartMin: Minute, nowMin: Minute): { atMin: Minute; roughMin: number } {
  if (time === 'just now') return { atMin: nowMin, roughMin: 0 }
  const { hour, roughMin } = middles[time]
  return { atMin: Math.min(nowMin, dayStartMin + hour * 60), roughMin }
}

/** The minutes since midnight on the wall of the studio, taken off. */
export function dayStart(nowMin: Minute, zone: string): Minute {
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hour: 'numeric',
    minute: 'numeric',
    hourCycle: 'h23',
  }).formatToParts(nowMin * 60_000)
  const of = (type: string) => Number(parts.find((part) => part.type === type)?.value ?? 0)
  return nowMin - of('hour') * 60 - of('minute')
}
