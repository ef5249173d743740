import { execFileSync } from 'node:child_process'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { intervalsOf, tariffOf } from '#app/calendar/hours.ts'
import { minuteAt, minuteOfWall, wallAt } from '#app/calendar/zone.ts'
import { Refusal } from '#app/refusal.ts'
import { rfcBelowTheDay, rfcExamples, rfcTime, rfcZone } from '../../golden/calendar/rfc5545.ts'
import { run } from '../../soak/hours.ts'
import { daysOf, everyExample, hoursOf } from './everyExample.ts'

const london = 'Europe/London'
const at = (wall: string, zone = london): number => minuteOfWall(wall, zone)
const wallsOf = (intervals: readonly { startMin: number; endMin: number }[], zone = london) =>
  intervals.map(({ startMin, endMin }) => `${wallAt(startMin, zone)} ${endMin - startMin}`)

describe('RFC 5545, 3.8.5.3', () => {
  test.each(rfcExamples)('$says: $rrule', ({ rrule, start, days, goesOn }) => {
    const printed = Object.entries(days).flatMap(([month, ofMonth]) =>
      ofMonth.map((day) => `${month}-${String(day).padStart(2, '0')}`),
    )
    // A rule that ends is asked until well after its last day: nothing more may come.
    expect(daysOf(hoursOf(rrule, start), goesOn ? printed.at(-1)! : '2008-12-31')).toEqual(printed)
  })

  test.each(rfcBelowTheDay)('below the day there are no hours: %s', (rrule) => {
    expect(() => daysOf(hoursOf(rrule, '1997-09-02'), '1997-09-03')).toThrow(Refusal)
  })

  test('all at 9 on the wall, before and after the clocks change', () => {
    const hours = hoursOf('FREQ=DAILY;UNTIL=19971224T000000Z', '1997-09-02')
    const intervals = intervalsOf([hours], [], rfcZone, at('1997-09-02T00:00'), at('1997-12-31T00:00'))
    expect(new Set(intervals.map(({ startMin }) => wallAt(startMin, rfcZone).slice(11)))).toEqual(new Set([rfcTime]))
    // 26 October 1997: from four to five hours behind UTC.
    expect(new Set(intervals.map(({ startMin }) => startMin % 1440))).toEqual(new Set([13 * 60, 14 * 60]))
  })
})

test('UNTIL: a day counts whole, an instant in UTC is one in the zone, one without zone is on the wall', () => {
  const daysUntil = (until: string) => daysOf(hoursOf(`FREQ=DAILY;UNTIL=${until}`, '2026-07-01'), '2026-07-31').length
  expect(daysUntil('20260703')).toBe(3)
  // 09:00 in New York is 13:00 UTC in July.
  expect(daysUntil('20260703T130000Z')).toBe(3)
  expect(daysUntil('20260703T125900Z')).toBe(2)
  expect(daysUntil('20260703T090000')).toBe(3)
  expect(daysUntil('20260703T085900')).toBe(2)
})

describe('hours', () => {
  const week = [at('2026-06-01T00:00'), at('2026-06-08T00:00')] as const
  const mornings = hoursOf('FREQ=WEEKLY;BYDAY=MO,WE', '2026-01-05', { durationMin: 180 })

  test('less what is taken', () => {
    const busy = [
      { start: '2026-06-01T10:00', end: '2026-06-01T10:30' },
      { start: '2026-06-03T08:00', end: '2026-06-03T13:00' },
    ]
    expect(wallsOf(intervalsOf([mornings], busy, london, ...week))).toEqual([
      '2026-06-01T09:00 60',
      '2026-06-01T10:30 90',
    ])
  })

  test('less days left out, and with days added; a day both is left out', () => {
    const hours = { ...mornings, exceptDates: ['2026-06-01', '2026-06-05'], extraDates: ['2026-06-05', '2026-06-06'] }
    expect(wallsOf(intervalsOf([hours], [], london, ...week))).toEqual(['2026-06-03T09:00 180', '2026-06-06T09:00 180'])
  })

  test('of several rules join where they meet', () => {
    const noon = hoursOf('FREQ=DAILY', '2026-01-01', { startTime: '12:00', durationMin: 60 })
    expect(wallsOf(intervalsOf([noon, mornings], [], london, ...week))[0]).toBe('2026-06-01T09:00 240')
  })

  test('are cut at the span, also what began before it', () => {
    const nights = hoursOf('FREQ=DAILY', '2026-01-01', { startTime: '22:00', durationMin: 540 })
    const asked = intervalsOf([nights], [], london, at('2026-06-02T01:00'), at('2026-06-02T23:00'))
    expect(wallsOf(asked)).toEqual(['2026-06-02T01:00 360', '2026-06-02T22:00 60'])
  })

  test('come round only on days that the rule names', () => {
    // 1 June 2026 is a Monday.
    expect(daysOf(hoursOf('FREQ=WEEKLY;BYDAY=TU', '2026-06-01'), '2026-06-10')).toEqual(['2026-06-02', '2026-06-09'])
  })

  test('are as long on the nights of a clock change as on any other', () => {
    const nights = hoursOf('FREQ=DAILY', '2026-01-01', { startTime: '22:00', durationMin: 480 })
    const over = (from: string, to: string) => wallsOf(intervalsOf([nights], [], london, at(from), at(to)))
    expect(over('2026-03-28T12:00', '2026-03-29T12:00')).toEqual(['2026-03-28T22:00 480'])
    expect(over('2026-10-24T12:00', '2026-10-25T12:00')).toEqual(['2026-10-24T22:00 480'])
  })

  test('whose start the wall skips begin when the wall goes on; one shown twice begins at the first', () => {
    const early = hoursOf('FREQ=DAILY', '2026-01-01', { startTime: '01:15', durationMin: 30 })
    const over = (day: string) => intervalsOf([early], [], london, at(`${day}T00:00`), at(`${day}T12:00`))
    expect(wallsOf(over('2026-03-29'))).toEqual(['2026-03-29T02:15 30'])
    expect(over('2026-10-25')[0]!.startMin).toBe(Date.parse('2026-10-25T00:15Z') / 60_000)
  })

  test('a busy time that the wall skips takes nothing', () => {
    const all = hoursOf('FREQ=DAILY', '2026-01-01', { startTime: '00:00', durationMin: 600 })
    const busy = [{ start: '2026-03-29T01:50', end: '2026-03-29T02:10' }]
    expect(wallsOf(intervalsOf([all], busy, london, at('2026-03-29T00:00'), at('2026-03-29T10:00')))).toEqual([
      '2026-03-29T00:00 540',
    ])
  })

  test('of a rule that never fits are none, and soon', () => {
    const before = process.cpuUsage()
    const never = [
      hoursOf('FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30', '2026-01-01'),
      hoursOf('FREQ=DAILY;INTERVAL=7;BYDAY=MO', '2026-06-02'),
      hoursOf('FREQ=WEEKLY;BYDAY=MO;BYSETPOS=3', '2026-01-01'),
    ]
    expect(intervalsOf(never, [], london, ...week)).toEqual([])
    // The library alone takes some 20 s of CPU for these three.
    expect(process.cpuUsage(before).user).toBeLessThan(2_000_000)
  })
})

describe('what does not exist is refused in plain words', () => {
  const ask =
    (rrule: string, zone = london) =>
    () =>
      intervalsOf([hoursOf(rrule, '2026-01-05')], [], zone, 0, 1440)

  test.each(['Mars/Olympus', '', '+01:00', 'local'])('zone %s', (zone) => {
    expect(ask('FREQ=DAILY', zone)).toThrow(`There is no time zone called “${zone}”`)
  })

  test.each([
    'nonsense',
    '',
    'BYDAY=MO',
    'FREQ=FOO',
    'FREQ=DAILY;INTERVAL=0',
    'FREQ=WEEKLY;BYDAY=XX',
    'FREQ=DAILY;COUNT=-3',
    'FREQ=DAILY;COUNT=3;UNTIL=20260101',
    'FREQ=DAILY;FREQ=WEEKLY',
    'FREQ=DAILY;UNTIL=soon',
    'FREQ=YEARLY;BYMONTH=13',
    'FREQ=MONTHLY;BYMONTHDAY=32',
    'FREQ=WEEKLY;BYMONTHDAY=3',
    'FREQ=WEEKLY;BYDAY=1MO',
    'FREQ=MONTHLY;BYDAY=6MO',
    'FREQ=DAILY=2',
    'RRULE:FREQ=DAILY',
    'FREQ=DAILY;toString=1',
    'FREQ=DAILY;',
  ])('rule %s', (rrule) => {
    expect(ask(rrule)).toThrow(Refusal)
    expect(ask(rrule)).toThrow('Write a rule by days')
  })

  test('days and times', () => {
    expect(() => minuteAt('2026-02-30', '09:00', london)).toThrow(Refusal)
    expect(() => minuteAt('2026-02-28', '24:00', london)).toThrow(Refusal)
    expect(() => minuteAt('28.2.2026', '9:00', london)).toThrow(Refusal)
    expect(() => intervalsOf([hoursOf('FREQ=DAILY', '2026-13-01')], [], london, 0, 1440)).toThrow(Refusal)
  })

  test('ends before starts, each with its field', () => {
    const hours = hoursOf('FREQ=DAILY', '2026-01-05')
    const busy = [{ start: '2026-01-05T10:00', end: '2026-01-05T10:00' }]
    const refusalOf = (act: () => unknown): Refusal => {
      try {
        act()
      } catch (error) {
        if (error instanceof Refusal) return error
      }
      throw new Error('nothing was refused')
    }
    expect(refusalOf(() => intervalsOf([hours], busy, london, 0, 1440))).toMatchObject({
      code: 'invalid',
      message: 'The busy time from 2026-01-05 10:00 must end after it starts.',
      fields: [{ path: 'end' }],
    })
    expect(refusalOf(() => intervalsOf([{ ...hours, durationMin: 0 }], [], london, 0, 1440)).fields[0]!.path).toBe(
      'durationMin',
    )
    expect(refusalOf(() => intervalsOf([hours], [], london, 1440, 0)).fields[0]!.path).toBe('toMin')
  })
})

test('a tariff: cheap nights, and the first band where two overlap', () => {
  const hours = (startTime: string, durationMin: number) => [
    hoursOf('FREQ=DAILY', '2026-01-01', { startTime, durationMin }),
  ]
  const bands = [
    { pricePerKwh: 0.1, hours: hours('00:00', 300) },
    { pricePerKwh: 0.2, hours: hours('04:00', 120) },
  ]
  const tariff = tariffOf(0.3, bands, london, at('2026-06-01T00:00'), at('2026-06-02T00:00'))
  expect(tariff).toEqual({
    basePricePerKwh: 0.3,
    spans: [
      { startMin: at('2026-06-01T00:00'), endMin: at('2026-06-01T05:00'), pricePerKwh: 0.1 },
      { startMin: at('2026-06-01T05:00'), endMin: at('2026-06-01T06:00'), pricePerKwh: 0.2 },
    ],
  })
})

test('300 random hours are those of a second library', () =>
  expect(run(300, 5)).toMatchObject({ failures: 0, report: '' }))

test.each([
  ['UTC', 0],
  ['Asia/Kathmandu', -345],
  ['America/New_York', 240],
])('a process that lives in %s says the same', (zone, offsetMin) => {
  const script = path.join(import.meta.dirname, 'printExamples.ts')
  const output = execFileSync(process.execPath, ['--import', 'tsx', script], {
    env: { ...process.env, TZ: zone },
    encoding: 'utf8',
  })
  expect(JSON.parse(output)).toEqual({ offsetMin, examples: JSON.parse(JSON.stringify(everyExample())) })
})
