import { minuteAt } from '#app/calendar/zone.ts'
import type { Minute } from '#core/time.ts'

const MS_PER_MIN = 60_000

/** The minute in which a moment of the wire lies. @param instant UTC, as the contract spells it */
export const minuteOf = (instant: string): Minute => Math.floor(Date.parse(instant) / MS_PER_MIN)

/** The first moment of a minute as the contract spells it. */
export const instantOf = (minute: Minute): string => new Date(minute * MS_PER_MIN).toISOString()

/** Midnight with which a day begins, in the studio's zone; the first moment after it where clocks skip midnight. */
export const startOfDay = (day: string, zone: string): Minute => minuteAt(day, '00:00', zone)
