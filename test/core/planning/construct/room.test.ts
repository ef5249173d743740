import { fc, test as property } from './property.ts'
import { expect, test } from 'vitest'
import { earliestFree, emptyRoom, leastFree, take } from '#core/planning/construct/room.ts'

test('what is given back at a moment is free for what is taken then', () => {
  const room = emptyRoom(3)
  take(room, 3, 10, 20)
  expect(leastFree(room, 20, 30)).toBe(3)
  expect(leastFree(room, 19, 30)).toBe(0)
  expect(leastFree(room, 0, 10)).toBe(3)
})

test('a negative count undoes', () => {
  const room = emptyRoom(2)
  take(room, 2, 5, 9)
  take(room, -2, 5, 9)
  expect(leastFree(room, 0, 20)).toBe(2)
})

test('finds the first moment with room long enough', () => {
  const room = emptyRoom(2)
  take(room, 2, 10, 20)
  take(room, 1, 25, 40)
  expect(earliestFree(room, 1, 10, 12)).toBe(20)
  expect(earliestFree(room, 2, 10, 12)).toBe(40)
  expect(earliestFree(room, 3, 1, 0)).toBeNull()
})

const spans = fc.array(
  fc.record({
    count: fc.integer({ min: 1, max: 4 }),
    from: fc.integer({ min: 0, max: 30 }),
    length: fc.integer({ min: 1, max: 12 }),
  }),
  { maxLength: 12 },
)

property(
  'agrees with counting minute by minute',
  spans,
  fc.integer({ min: 0, max: 35 }),
  fc.integer({ min: 1, max: 10 }),
  (taken, from, length) => {
    const room = emptyRoom(20)
    const byMinute = Array.from({ length: 60 }, () => 20)
    for (const span of taken) {
      take(room, span.count, span.from, span.from + span.length)
      for (let minute = span.from; minute < span.from + span.length; minute++) byMinute[minute]! -= span.count
    }
    return leastFree(room, from, from + length) === Math.min(...byMinute.slice(from, from + length))
  },
)
