import { expect, test } from 'vitest'
import { LANE_PX, lanesInSight, makerAfter, minutesOf, scaleOf, xOf } from '../../../src/web/week/board.ts'

const week = { fromMin: 1_000, toMin: 1_000 + 7 * 1_440 }

test('days fill the room there is, and where it is small the board is wider than that', () => {
  expect(scaleOf(week, 7, 2_100).widthPx).toBe(2_100)
  expect(scaleOf(week, 7, 300).widthPx).toBe(1_050)
})

test('pixels and minutes go both ways', () => {
  const scale = scaleOf(week, 7, 1_050)
  expect(xOf(1_000 + 1_440, scale)).toBe(150)
  expect(minutesOf(75, scale)).toBe(720)
})

test('of many lanes those in sight are drawn, and a few beside them', () => {
  // 300 px are ten lanes; scrolled down by 40 lanes; four beside on either side.
  expect(lanesInSight(200, 40 * LANE_PX, 300)).toEqual({ from: 36, to: 54 })
  expect(lanesInSight(200, 0, 300)).toEqual({ from: 0, to: 14 })
  expect(lanesInSight(5, 900, 300)).toEqual({ from: 1, to: 5 })
})

test('a pointer is over the lane that lies as far down as it went', () => {
  const lane = (key: string, makerId?: string) => ({ key, name: key, bars: [], ...(makerId ? { makerId } : {}) })
  const lanes = [lane('Hands'), lane('a', 'mara'), lane('b', 'ben'), lane('rack')]
  expect(makerAfter(lanes, 'mara', LANE_PX * 0.4)).toBe('mara')
  expect(makerAfter(lanes, 'mara', LANE_PX * 0.6)).toBe('ben')
  expect(makerAfter(lanes, 'mara', LANE_PX * 2)).toBeUndefined()
})
