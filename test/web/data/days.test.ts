import { expect, test } from 'vitest'
import { dayStart, dayStarts } from '../../../src/web/data/days.ts'

const minute = (iso: string): number => Date.parse(iso) / 60_000

// Nights on which clocks change, from the IANA time zone database: London 29 March and 25 October 2026; Lord Howe by half an
// hour, 4 October 2026; Asuncion skipped midnight itself on 6 October 2019; Kathmandu is 5:45 from UTC.
test.each([
  ['Europe/London', '2026-03-29T12:00:00Z', '2026-03-29T00:00:00Z'],
  ['Europe/London', '2026-03-30T12:00:00Z', '2026-03-29T23:00:00Z'],
  ['Europe/London', '2026-10-25T23:30:00Z', '2026-10-24T23:00:00Z'],
  ['Australia/Lord_Howe', '2026-10-04T12:00:00Z', '2026-10-03T13:30:00Z'],
  ['America/Asuncion', '2019-10-06T12:00:00Z', '2019-10-06T04:00:00Z'],
  ['Asia/Kathmandu', '2026-05-01T12:00:00Z', '2026-04-30T18:15:00Z'],
])('in %s the day of %s begins at %s', (zone, within, start) => {
  expect(dayStart(minute(within), zone)).toBe(minute(start))
  expect(dayStart(minute(start), zone)).toBe(minute(start))
})

test('days follow one another without gap, the short one and the long one too', () => {
  const lengthsH = (from: string) =>
    dayStarts(minute(from), 4, 'Europe/London')
      .map((start, i, all) => (i === 0 ? Number.NaN : (start - all[i - 1]!) / 60))
      .slice(1)
  expect(lengthsH('2026-03-28T08:00:00Z')).toEqual([24, 23, 24])
  expect(lengthsH('2026-10-24T08:00:00Z')).toEqual([24, 25, 24])
})
