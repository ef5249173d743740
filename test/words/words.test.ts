import { describe, expect, test } from 'vitest'
import { cautions } from '#core/clay/cautions.ts'
import { countText, lengthText, massText, oddsText, temperatureText } from '#words/amounts.ts'
import { cautionText } from '#words/cautions.ts'
import { onPaper } from '#words/context.ts'
import { firingReasonText } from '#words/firings.ts'
import { loadBreachText } from '#words/loading.ts'
import { reasonText } from '#words/reasons.ts'
import { calendarDayText, durationText, momentText, spanText } from '#words/times.ts'

const minute = (iso: string): number => Date.parse(iso) / 60_000
/** A Wednesday, 8:00 in London. */
const nowMin = minute('2026-11-25T08:00:00Z')
const london = { zone: 'Europe/London', locale: 'en-GB', units: 'metric', nowMin } as const
const newYork = { zone: 'America/New_York', locale: 'en-US', units: 'us', nowMin } as const

describe('times', () => {
  test('a day of the calendar stays that day, wherever the reader is', () => {
    expect(calendarDayText('2026-12-01', { locale: 'en-GB' })).toMatch(/^Tuesday,? 1 December$/)
  })

  test.each([
    ['2026-11-25T16:40:00Z', 'today 16:40'],
    ['2026-11-26T16:40:00Z', 'tomorrow 16:40'],
    ['2026-11-24T16:40:00Z', 'yesterday 16:40'],
    ['2026-11-28T09:00:00Z', 'Saturday 9:00'],
  ])('%s', (iso, said) => expect(momentText(minute(iso), london)).toBe(said))

  test('are those of the studio’s zone and locale', () =>
    expect(momentText(minute('2026-11-26T04:30:00Z'), newYork)).toBe('today 11:30 PM'))

  // The clocks of London went from 1:00 to 2:00 on 29 March 2026 at 01:00 UTC.
  test('a span from nine to ten names no zone', () => {
    expect(spanText(minute('2026-11-25T09:15:00Z'), minute('2026-11-25T10:05:00Z'), london)).toBe(
      'today, 9:15 to 10:05',
    )
  })

  test.each([['2026-03-29T00:30:00Z', '2026-03-29T01:30:00Z', 'today, 0:30 to 2:30']])(
    'a night in which the clocks change: %s',
    (from, to, said) => expect(spanText(minute(from), minute(to), { ...london, nowMin: minute(from) })).toBe(said),
  )

  test.each([
    [35, '35 min'],
    [120, '2 h'],
    [160, '2 h 40'],
    [4320, '3 days'],
    [185, '3 h 05'],
  ])('%d min', (minutes, said) => expect(durationText(minutes)).toBe(said))
})

// An inch is 25.4 mm and a pound 0.45359237 kg by the international agreement of 1959.
test.each([
  [lengthText(240, 'metric'), '240 mm'],
  [lengthText(25.4 * 9.4375, 'us'), '9 7/16 in'],
  [lengthText(12.7, 'us'), '1/2 in'],
  [lengthText(304.8, 'us'), '12 in'],
  [temperatureText(100, 'us'), '212 °F'],
  [massText(4.5359237, 'us'), '10 lb'],
  [oddsText(0.9), '9 in 10'],
  [oddsText(0.95), '19 in 20'],
  [oddsText(0.04), 'less than 1 in 10'],
  [countText(1, 'tray'), '1 tray'],
  [countText(3, 'box'), '3 boxes'],
])('%s', (said, wanted) => expect(said).toBe(wanted))

test('a reason is said with its amounts in the reader’s units', () => {
  const reason = { code: 'no-clay', params: { clay: 'stoneware', neededKg: 4.5359237, onHandKg: 0 } } as const
  expect(reasonText(reason, newYork)).toBe('There is not enough stoneware: 10 lb are needed and 0 lb are there.')
  const weak = { code: 'above-kiln-maximum', params: { topC: 1260, maxTempC: 1200 } } as const
  expect(firingReasonText(weak, 'metric')).toBe('The firing goes to 1260 °C, and the kiln may go to 1200 °C only.')
})

test('what is wrong with a load is said', () => expect(loadBreachText({ code: 'shelf-overlap' })).toMatch(/overlap/))

test('whoever sets up a kiln is sent to its manual and to a licensed trade', () => {
  const settingUp = cautions.filter(({ applies }) => applies({ doing: 'setting up a kiln' }))
  expect(settingUp.length).toBeGreaterThan(0)
  for (const { code } of settingUp) expect(cautionText(code)).toMatch(/manual, local codes and a licensed electrician/)
})

test('the hour that a clock shows twice is told apart', () => {
  const context = {
    zone: 'Europe/London',
    locale: 'en-GB',
    units: 'metric',
    nowMin: Date.parse('2026-10-25T00:00:00Z') / 60_000,
  } as const
  const first = Date.parse('2026-10-25T00:30:00Z') / 60_000
  expect(spanText(first, first + 60, context)).toBe('today, 01:30 BST to 01:30 GMT')
})

test('on paper a day is told by its date, however near it was when it was printed', () => {
  expect(momentText(nowMin, london)).toBe('today 8:00')
  expect(momentText(nowMin, onPaper(london))).toMatch(/^Wednesday,? 25 November 8:00$/)
})
