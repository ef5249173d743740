import { expect, test } from 'vitest'
import { circleFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import { NO_STACKING, type Footprint, type Stacking } from '#core/loading/types.ts'
import { fillOf } from '#core/planning/facts/fill.ts'
import { fits } from '#core/loading/fits.ts'
import { aPiece, someKilns } from '../../loading/examples.ts'

const space = someKilns.square
/** Two halves of 560 by 280 mm. */
const LEVEL_MM2 = 560 * 560

const sized = (footprint: Footprint, sideMm: number, heightMm: number, stacking: Stacking = NO_STACKING) => ({
  footprint,
  lengthMm: sideMm,
  widthMm: sideMm,
  heightMm,
  outlineShare: footprint.radiusMm > 0 ? Math.PI / 4 : 1,
  massKg: 0.4,
  stacking,
})

const tiles: Stacking = { maxAbove: 9, maxMassAboveKg: 20, top: 'flat' }
const bowls: Stacking = {
  maxAbove: 1,
  maxMassAboveKg: 20,
  top: 'rim',
  hollow: { footprint: circleFootprint(100), floorMm: 10 },
}

test('ware without piles is laid by area, level by level', () => {
  // 20 boxes of 140 mm: 19 600 mm2 each, 11 on a level of 0.72 * 313 600; two levels, each 40 + 12 under a 64 mm post,
  // and 19 mm of shelf: 166 of 686 mm.
  const boxes = { size: sized(rectangleFootprint(140, 140), 140, 40), count: 20 }
  expect(Math.floor((0.72 * LEVEL_MM2) / 19_600)).toBe(11)
  expect(fillOf(space, 'bisque', [boxes])).toBeCloseTo((2 * (64 + 19)) / 686, 9)
})

test('tiles that lie on one another in the bisque take the height of their piles', () => {
  // 100 tiles of 140 mm: ten piles of 90 mm on one level, under posts of 102 mm; apart they took ten levels.
  const size = sized(rectangleFootprint(140, 140), 140, 9, tiles)
  expect(fillOf(space, 'bisque', [{ size, count: 100 }])).toBeCloseTo((102 + 19) / 686, 9)
  expect(fillOf(space, 'glaze', [{ size, count: 100 }])).toBeGreaterThan(0.5)
})

test('a kiln that only piles fill is not called too full, and the packer does fill it', () => {
  const size = sized(rectangleFootprint(140, 140), 140, 9, tiles)
  const items = Array.from({ length: 300 }, (_, i) =>
    aPiece(`tile-${i}`, size.footprint, 9, { massKg: 0.4, stacking: tiles }),
  )
  expect(fillOf(space, 'bisque', [{ size, count: 300 }])).toBeLessThan(0.93)
  expect(fits(space, items, 'bisque', 'quick').answer).toBe('fits')
  expect(fillOf(space, 'glaze', [{ size, count: 300 }])).toBeGreaterThan(1)
})

test('small bowls in large ones take no floor', () => {
  const small = { size: sized(circleFootprint(90), 90, 50), count: 6 }
  const large = { size: sized(circleFootprint(140), 140, 70, bowls), count: 6 }
  expect(fillOf(space, 'bisque', [large, small])).toBeCloseTo(fillOf(space, 'bisque', [large]), 9)
})
