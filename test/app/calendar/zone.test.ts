import { expect, test } from 'vitest'
import { dayAt, isoAt, minuteAt, minuteOfWall, wallAt } from '#app/calendar/zone.ts'
import { clockChanges } from '../../golden/calendar/clockChanges.ts'

test.each(clockChanges)('$zone $wall is $utc UTC ($night)', ({ zone, wall, utc }) => {
  expect(minuteOfWall(wall, zone)).toBe(Date.parse(`${utc}Z`) / 60_000)
})

test.each([...new Set(clockChanges.map((night) => night.zone))])(
  '%s: what the wall shows is the minute it was',
  (zone) => {
    // Every 47 hours 13 minutes of two years, and every 5 minutes around the golden nights.
    const minutes = Array.from({ length: 370 }, (_, index) => minuteAt('2025-01-01', '00:00', zone) + index * 2833)
    const nights = clockChanges.filter((night) => night.zone === zone).map(({ utc }) => Date.parse(`${utc}Z`) / 60_000)
    const around = nights.flatMap((minute) => Array.from({ length: 60 }, (_, index) => minute + (index - 30) * 5))
    // A time shown twice comes back as its first.
    const wrong = [...minutes, ...around].filter((minute) => {
      const wall = wallAt(minute, zone)
      const back = minuteOfWall(wall, zone)
      return wallAt(back, zone) !== wall || back > minute || minute - back > 60
    })
    expect(wrong).toEqual([])
  },
)

test('a day starts when its first minute is shown, also where midnight is skipped', () => {
  expect(wallAt(minuteAt('2026-09-06', '00:00', 'America/Santiago'), 'America/Santiago')).toBe('2026-09-06T01:00')
})

test('the day is the studio’s, not that of UTC', () => {
  const minute = Date.parse('2026-06-01T20:00Z') / 60_000
  expect(dayAt(minute, 'Asia/Kathmandu')).toBe('2026-06-02')
  expect(dayAt(minute, 'America/New_York')).toBe('2026-06-01')
})

test('ISO with the offset of the moment', () => {
  expect(isoAt(minuteAt('2026-07-01', '09:30', 'Europe/London'), 'Europe/London')).toBe('2026-07-01T09:30:00+01:00')
  expect(isoAt(minuteAt('2026-01-01', '09:30', 'Europe/London'), 'Europe/London')).toBe('2026-01-01T09:30:00+00:00')
})

test('before the epoch minutes are negative', () => expect(minuteAt('1969-12-31', '23:59', 'UTC')).toBe(-1))
