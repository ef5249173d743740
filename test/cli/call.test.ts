import { expect, test } from 'vitest'
import { minuteAt } from '#app/calendar/zone.ts'
import { momentOf, readCall } from '#cli/call.ts'
import { folded } from '#cli/lines.ts'
import { named } from '#cli/named.ts'

const utc = (iso: string) => Date.parse(iso) / 60_000

// GOV.UK, "When do the clocks change?": in 2026 on 29 March at 1:00 an hour forward, on 25 October at 2:00 an hour back.
test.each([
  ['in winter', '2026-11-25T08:00', 'Europe/London', '2026-11-25T08:00:00Z'],
  ['in summer', '2026-07-01 09:30', 'Europe/London', '2026-07-01T08:30:00Z'],
  ['in the hour that the wall skips', '2026-03-29T01:30', 'Europe/London', '2026-03-29T01:30:00Z'],
  ['in the hour that it shows twice', '2026-10-25T01:30', 'Europe/London', '2026-10-25T00:30:00Z'],
  ['fourteen hours ahead', '2026-11-25T08:00', 'Pacific/Kiritimati', '2026-11-24T18:00:00Z'],
  ['a quarter of an hour off', '2026-11-25T08:00', 'Asia/Kathmandu', '2026-11-25T02:15:00Z'],
  ['a day alone', '2026-11-25', 'America/New_York', '2026-11-25T05:00:00Z'],
  ['with a zone of its own', '2026-11-25T08:00:00+01:00', 'Pacific/Auckland', '2026-11-25T07:00:00Z'],
])('a moment is read off the studio’s wall: %s', (_, said, zone, moment) =>
  expect(momentOf(said, zone)).toBe(utc(moment)),
)

test.each(['soon', '5', '2026', '2026-02-30', '2026-13-01T08:00', '2026-11-25T25:00', '0001-01-01', '9999-01-01', ''])(
  '“%s” is no moment',
  (said) => expect(() => momentOf(said, 'Europe/London')).toThrow(),
)

test('`--now` waits for the studio whose clock it means', () => {
  const { options } = readCall(['now', '--now', '2026-07-01T09:30'], {}, 0)
  expect(options.nowIn('Europe/London')).toBe(minuteAt('2026-07-01', '09:30', 'Europe/London'))
})

test('units that there are not are refused, not passed over', () => {
  expect(() => readCall(['plan', '--units', 'imperial'], {}, 0)).toThrow('--units must be one of: metric, us')
})

test.each(['tray', 'Tea tray', 'tea-tray', 'tea trays', 'TEA TRAY'])('“%s” is a name for a tea tray', (wanted) => {
  expect(
    named(
      [
        { id: 'mug', name: 'Slab mug' },
        { id: 'tray', name: 'Tea tray' },
      ],
      wanted,
      'design',
    ).id,
  ).toBe('tray')
})

test('long sentences are folded at words, and nothing of them is lost', () => {
  const sentence = Array.from({ length: 60 }, (_, i) => `word${i}`).join(' ')
  const lines = folded(sentence, 4)
  expect(lines.every((line) => line.length <= 100)).toBe(true)
  expect(lines.map((line) => line.trim()).join(' ')).toBe(sentence)
})
