import { expect, test } from 'vitest'
import { leftOutText, scheduleTexts } from '#words/kilns.ts'

const schedule = {
  name: 'Glaze',
  kind: 'glaze',
  segments: [
    { rateCPerH: 100, targetC: 600, holdMin: 0 },
    { rateCPerH: 150, targetC: 1_220, holdMin: 15 },
  ],
  coolingSegments: [{ rateCPerH: 80, targetC: 1_000, holdMin: 30 }],
} as const

test('a schedule is said ramp by ramp', () =>
  expect(scheduleTexts(schedule, 'metric')).toEqual([
    'Up 100 °C an hour to 600 °C',
    'Up 150 °C an hour to 1220 °C, then 15 min held',
    'Down 80 °C an hour to 1000 °C, then 30 min held',
  ]))

// 100 K are 180 Fahrenheit degrees; 600 °C is 1112 °F.
test('and in the units of whoever fires', () =>
  expect(scheduleTexts(schedule, 'us')[0]).toBe('Up 180 °F an hour to 1112 °F'))

test('why a piece is left out is said with its sizes; a reason not known is no riddle', () => {
  const tall = { code: 'piece-too-tall', params: { piece: 'a', heightMm: 310, roomMm: 300 } }
  expect(leftOutText(tall, 'metric')).toBe('it is 310 mm high, and there is room for 300 mm')
  expect(leftOutText({ code: 'of tomorrow', params: {} }, 'metric')).toBe('it found no place')
})
