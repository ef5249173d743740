/** "This morning" as a moment and how far it may be off. */
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { dayStart } from '../data/days.ts'

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

/** Those that have begun: nothing has happened in the future. */
export function roughTimesSoFar(nowMin: Minute, zone: string): RoughTime[] {
  const start = dayStart(nowMin, zone)
  return roughTimes.filter((time) => {
    if (time === 'just now') return true
    const { hour, roughMin } = middles[time]
    return start + hour * MIN_PER_HOUR - roughMin < nowMin
  })
}

/**
 * Never later than now. On a day on which the clock is changed the hour may be one off, which lies within the roughness.
 * @returns a moment, and how many minutes it may be off either way
 */
export function roughMoment(time: RoughTime, nowMin: Minute, zone: string): { atMin: Minute; roughMin: number } {
  if (time === 'just now') return { atMin: nowMin, roughMin: 0 }
  const { hour, roughMin } = middles[time]
  return { atMin: Math.min(nowMin, dayStart(nowMin, zone) + hour * MIN_PER_HOUR), roughMin }
}
