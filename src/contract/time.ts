/** Moments, days and times of the day as they stand on the wire. Inside the program all of them are minutes. */
import { z } from 'zod'
import { mustBe } from './fields.ts'

/** A moment: UTC, to the millisecond, in one spelling only, so that equal files are equal byte for byte. */
export function instant(what: string) {
  const error = mustBe(what, 'a moment in UTC such as 2026-03-02T09:30:00.000Z')
  return z
    .string({ error })
    .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/, { error, abort: true })
    .refine((text) => isMoment(text), { error })
    .meta({ description: `${what}, UTC`, format: 'date-time' })
}

/** A day in the studio's zone. */
export function day(what: string) {
  const error = mustBe(what, 'a date such as 2026-03-02')
  return z
    .string({ error })
    .regex(/^\d{4}-\d\d-\d\d$/, { error, abort: true })
    .refine((text) => isMoment(`${text}T00:00:00.000Z`), { error })
    .meta({ description: `${what}, a day in the zone of the studio`, format: 'date' })
}

/** A time of the day on the wall of the studio. */
export function timeOfDay(what: string) {
  const error = mustBe(what, 'a time such as 09:30')
  return z
    .string({ error })
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, { error })
    .meta({ description: what })
}

/** A day and a time on the wall of the studio: what a calendar says, whatever the clocks do. */
export function wallMoment(what: string) {
  const error = mustBe(what, 'a day and time such as 2026-03-02T09:30, without zone')
  return z
    .string({ error })
    .regex(/^\d{4}-\d\d-\d\dT([01]\d|2[0-3]):[0-5]\d$/, { error, abort: true })
    .refine((text) => isMoment(`${text}:00.000Z`), { error })
    .meta({ description: `${what}, on the wall of the studio` })
}

/** A time zone by its name in the IANA time zone database. */
export function zone(what: string) {
  const error = mustBe(what, 'the name of a time zone such as Europe/London')
  return z
    .string({ error })
    .max(60, { error })
    .refine(isZone, { error })
    .meta({ description: `${what}, an IANA name` })
}

/** 30 February has the right spelling too: only a moment that comes back as it was written is one. */
function isMoment(text: string): boolean {
  const time = Date.parse(text)
  return !Number.isNaN(time) && new Date(time).toISOString() === text
}

function isZone(name: string): boolean {
  // Offsets such as +01:00 are accepted by Intl as well, but know no daylight saving.
  if (!/^[A-Za-z]/.test(name)) return false
  try {
    return Boolean(new Intl.DateTimeFormat('en', { timeZone: name }))
  } catch {
    return false
  }
}
