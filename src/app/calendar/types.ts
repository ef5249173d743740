/** Hours that come back: sessions, kiln watch, cheap tariff, a delivery round. Wall clock of the studio's zone. */
export type HoursRule = {
  /** An RFC 5545 recurrence rule without DTSTART and without the word RRULE, e.g. `FREQ=WEEKLY;BYDAY=MO,WE`. */
  readonly rrule: string
  /** First day, YYYY-MM-DD; counts as the rule's DTSTART together with `startTime`. */
  readonly startDate: string
  /** HH:MM on the wall. */
  readonly startTime: string
  /** Elapsed minutes, so that eight hours are eight hours also in the night of a clock change; more than 0. */
  readonly durationMin: number
  /** Days left out, YYYY-MM-DD. */
  readonly exceptDates: readonly string[]
  /** Days added, at `startTime`, YYYY-MM-DD. */
  readonly extraDates: readonly string[]
}

/** A time that is taken, once, wall clock of the studio's zone: YYYY-MM-DDTHH:MM. `end` is after `start`. */
export type BusyTime = { readonly start: string; readonly end: string }
