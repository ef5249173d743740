/** Days and moments of the example, told from the day on which it is opened. */
import { DateTime } from 'luxon'

/** Where the example studio is; its clocks change twice a year. */
export const exampleZone = 'Europe/London'

/** `days` may be negative; `time` is HH:MM on the wall of the studio. */
export type ExampleClock = {
  readonly date: (days: number) => string
  readonly instant: (days: number, time: string) => string
  /** The last `weekday` (1 = Monday) that is not after the given day. */
  readonly lastWeekday: (weekday: number, days: number) => string
  /** The next `weekday` that is not before the given day. */
  readonly nextWeekday: (weekday: number, days: number) => string
}

/** @param today YYYY-MM-DD */
export function exampleClock(today: string): ExampleClock {
  const start = DateTime.fromISO(today, { zone: exampleZone })
  if (!start.isValid) throw new RangeError(`not a date: ${today}`)
  const day = (days: number): DateTime => start.plus({ days })
  const dateOf = (moment: DateTime): string => moment.toISODate()!
  return {
    date: (days) => dateOf(day(days)),
    instant: (days, time) =>
      DateTime.fromISO(`${dateOf(day(days))}T${time}`, { zone: exampleZone })
        .toJSDate()
        .toISOString(),
    lastWeekday: (weekday, days) => dateOf(day(days).minus({ days: (day(days).weekday - weekday + 7) % 7 })),
    nextWeekday: (weekday, days) => dateOf(day(days).plus({ days: (weekday - day(days).weekday + 7) % 7 })),
  }
}
