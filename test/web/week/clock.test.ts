import { expect, test } from 'vitest'
import { minuteAtClock } from '../../../src/web/week/clock.ts'
import { dayStart } from '../../../src/web/data/days.ts'

const minuteOf = (instant: string) => Date.parse(instant) / 60_000
const at = (instant: string, time: string, zone: string) => {
  const found = minuteAtClock(dayStart(minuteOf(instant), zone), time, zone)
  return found === undefined ? undefined : new Date(found * 60_000).toISOString()
}

test.each([
  ['on a usual day', '2026-03-02T12:00:00Z', '09:05', 'Europe/London', '2026-03-02T09:05:00.000Z'],
  ['far to the east', '2026-03-02T12:00:00Z', '09:05', 'Pacific/Auckland', '2026-03-02T20:05:00.000Z'],
  // Clocks went forward at 1:00 UTC on 29 March 2026 and back at 1:00 UTC on 25 October 2026 (IANA, Europe/London).
  ['after the clocks went forward', '2026-03-29T12:00:00Z', '09:00', 'Europe/London', '2026-03-29T08:00:00.000Z'],
  ['after they went back', '2026-10-25T12:00:00Z', '09:00', 'Europe/London', '2026-10-25T09:00:00.000Z'],
])('the clock is met %s', (_, day, time, zone, wanted) => expect(at(day, time, zone)).toBe(wanted))

test('a time that the clock skips is as far on as it would be', () =>
  expect(at('2026-03-29T12:00:00Z', '01:30', 'Europe/London')).toBe('2026-03-29T01:30:00.000Z'))

test.each(['', '9:00', '25:00', '12:60'])('“%s” is no time', (time) =>
  expect(at('2026-03-02T12:00:00Z', time, 'Europe/London')).toBeUndefined(),
)
