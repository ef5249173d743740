import { describe, expect, test } from 'vitest'
import { checkLoad } from '#core/loading/checkLoad.ts'
import { fits } from '#core/loading/fits.ts'
import { circleFootprint, ovalFootprint, polygonFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import { convexHullOf } from '#core/loading/polygon.ts'
import { newSeparation, separate } from '#core/loading/separation.ts'
import type { Load, LoadItem, LoadLevel, Placement } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { run as soakLoads } from '../../soak/loads.ts'
import { aKiln, aPiece, mixedPieces, someKilns } from './examples.ts'

const loadOf = (kiln: Parameters<typeof fits>[0], items: readonly LoadItem[], kind: 'bisque' | 'glaze'): Load => {
  const answer = fits(kiln, items, kind, 'quick')
  if (answer.answer !== 'fits') throw new Error(`no load: ${answer.answer}`)
  return answer.load
}
const placed = ({ levels }: Load): Placement[] => levels.flatMap(({ placements }) => [...placements])
const codes = (...asked: Parameters<typeof checkLoad>) => checkLoad(...asked).map(({ code }) => code)

test('random loads break nothing, and no two pieces overlap on a raster', () => {
  expect(soakLoads(200, 11)).toMatchObject({ failures: 0 })
})

test('the same pieces in another order give the same load', () => {
  const pieces = mixedPieces(24, seededRng(3), false)
  const sizes = (load: Load) =>
    placed(load)
      .map(({ xMm, yMm, zMm }) => `${xMm} ${yMm} ${zMm}`)
      .toSorted()
  expect(sizes(loadOf(someKilns.round, pieces.toReversed(), 'glaze'))).toEqual(
    sizes(loadOf(someKilns.round, pieces, 'glaze')),
  )
})

describe('planted breaches are each caught', () => {
  const items = mixedPieces(18, seededRng(5))
  const kiln = someKilns.round
  const load = loadOf(kiln, items, 'glaze')
  const change = (of: (level: LoadLevel) => LoadLevel): Load => ({
    ...load,
    levels: load.levels.map((level, i) => (i === 0 ? of(level) : level)),
  })
  const first = (of: (placement: Placement) => Placement): Load =>
    change((level) => ({
      ...level,
      placements: level.placements.map((placement, i) => (i === 0 ? of(placement) : placement)),
    }))

  test('the load itself is legal', () => expect(checkLoad(kiln, items, 'glaze', load)).toEqual([]))

  test.each([
    ['a piece is missing', change((level) => ({ ...level, placements: level.placements.slice(1) })), 'must-go-missing'],
    [
      'a piece stands twice',
      change((level) => ({ ...level, placements: [...level.placements, level.placements[0]!] })),
      'piece-twice',
    ],
    ['a piece is unknown', first((placement) => ({ ...placement, key: 'stranger' })), 'unknown-piece'],
    [
      'a piece stands on another',
      first((placement) => ({
        ...placement,
        xMm: load.levels[0]!.placements[1]!.xMm,
        yMm: load.levels[0]!.placements[1]!.yMm,
      })),
      'pieces-too-close',
    ],
    ['a piece hangs over the shelf', first((placement) => ({ ...placement, xMm: 260, yMm: 0 })), 'over-shelf-edge'],
    ['a piece floats', first((placement) => ({ ...placement, zMm: placement.zMm + 5 })), 'wrong-height'],
    [
      'a shelf is unknown',
      change((level) => ({ ...level, shelves: [{ ...level.shelves[0]!, shelfId: 'borrowed' }] })),
      'shelf-unknown',
    ],
    ['a shelf lacks a post', change((level) => ({ ...level, posts: level.posts.slice(1) })), 'too-few-posts'],
    [
      'a post is unknown',
      change((level) => ({ ...level, posts: level.posts.map((post) => ({ ...post, postIds: ['stick'] })) })),
      'post-unknown',
    ],
    ['a number is none', first((placement) => ({ ...placement, xMm: Number.NaN })), 'bad-number'],
  ])('%s', (_, spoilt, code) => expect(codes(kiln, items, 'glaze', spoilt)).toContain(code))

  test('a piece grows taller than its level', () => {
    const tall = items.map((item, i) => (i === 0 ? { ...item, heightMm: 900 } : item))
    expect(codes(kiln, tall, 'glaze', load)).toContain('too-tall-for-level')
  })

  test('a piece that may only make quarter turns is turned by less', () => {
    const held = items.map((item) => ({ ...item, rotation: 'none' as const }))
    expect(
      codes(
        kiln,
        held,
        'glaze',
        first((placement) => ({ ...placement, angleIndex: 7 })),
      ),
    ).toContain('rotation-not-allowed')
  })

  test('ranges of firing lie apart', () => {
    const apart = items.map((item, i) => ({
      ...item,
      firing: i === 0 ? { lowC: 1_000, highC: 1_050 } : { lowC: 1_200, highC: 1_240 },
    }))
    expect(codes(kiln, apart, 'glaze', load)).toContain('firing-ranges-apart')
  })
})

describe('what does not go in is proved or said', () => {
  test.each([
    ['a piece wider than the kiln', someKilns.round, aPiece('wide', circleFootprint(700), 50), 'piece-too-wide'],
    ['a piece taller than the kiln', someKilns.round, aPiece('tall', circleFootprint(100), 900), 'piece-too-tall'],
    ['a piece without height', someKilns.round, aPiece('flat', circleFootprint(100), 0), 'piece-size-invalid'],
    [
      'no posts',
      { ...someKilns.round, furniture: { ...someKilns.round.furniture, posts: [] } },
      aPiece('pot', circleFootprint(100), 90),
      'no-posts',
    ],
    [
      'no shelves',
      aKiln({ kind: 'round', diameterMm: 500 }, 600, []),
      aPiece('pot', circleFootprint(100), 90),
      'no-shelves',
    ],
  ])('%s', (_, kiln, piece, code) => {
    const answer = fits(kiln, [piece], 'glaze', 'quick')
    expect(answer.answer).toBe('impossible')
    if (answer.answer === 'impossible') expect(answer.reason.code).toBe(code)
  })

  test('far more pieces than a kiln holds get a bounded answer', () => {
    const many = mixedPieces(2_000, seededRng(8))
    expect(fits(someKilns.round, many, 'glaze', 'quick').answer).toBe('impossible')
  })
})

describe('outlines', () => {
  test('that cross themselves are refused', () => {
    const bow = [
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ].map(([xMm, yMm]) => ({ xMm: xMm!, yMm: yMm! }))
    expect(polygonFootprint(bow)).toMatchObject({ refused: { code: 'outline-crosses-itself' } })
  })

  test('that are not convex become convex parts of the same area', () => {
    const corner = [
      [0, 0],
      [20, 0],
      [20, 10],
      [10, 10],
      [10, 20],
      [0, 20],
    ].map(([xMm, yMm]) => ({ xMm: xMm!, yMm: yMm! }))
    const made = polygonFootprint(corner)
    if (!('footprint' in made)) throw new Error('refused')
    const area = made.footprint.hulls.reduce((sum, hull) => sum + areaOf(hull), 0)
    expect(area).toBeCloseTo(300, 9)
    expect(areaOf(convexHullOf(corner))).toBeCloseTo(350, 9)
  })

  test('of an oval hold all of it, and no more than a tenth of a millimetre besides', () => {
    const { hulls, radiusMm } = ovalFootprint(300, 180)
    for (let k = 0; k < 360; k++) {
      const angle = (k * Math.PI) / 180
      const point = { xMm: 150 * Math.cos(angle), yMm: 90 * Math.sin(angle) }
      const outside = distanceTo(hulls[0]!, point) - radiusMm
      expect(outside).toBeLessThanOrEqual(1e-6)
    }
  })

  test('of a rectangle have its corners rounded', () => {
    const { hulls, radiusMm } = rectangleFootprint(100, 60, 10)
    expect(distanceTo(hulls[0]!, { xMm: 50, yMm: 30 }) - radiusMm).toBeCloseTo(10 * (Math.SQRT2 - 1), 9)
  })
})

test('the separation of two hulls is the least distance between points of them', () => {
  const rng = seededRng(17)
  const square = Float64Array.of(-10, -10, 10, -10, 10, 10, -10, 10)
  for (let i = 0; i < 60; i++) {
    const angle = 2 * Math.PI * rng.next()
    const away = 25 + 20 * rng.next()
    const [x, y] = [away * Math.cos(angle), away * Math.sin(angle)]
    const found = separate(square, 0, 0, Float64Array.of(0, 0), x, y, Number.POSITIVE_INFINITY, newSeparation())
    const true_ = Math.hypot(Math.max(0, Math.abs(x) - 10), Math.max(0, Math.abs(y) - 10))
    expect(found).toBeCloseTo(true_, 9)
  }
})

type At = { readonly xMm: number; readonly yMm: number }
const areaOf = (hull: readonly At[]): number =>
  Math.abs(
    hull.reduce(
      (sum, p, i) => sum + p.xMm * hull[(i + 1) % hull.length]!.yMm - hull[(i + 1) % hull.length]!.xMm * p.yMm,
      0,
    ),
  ) / 2

/** Distance from a point to a convex hull; 0 inside. */
function distanceTo(hull: readonly At[], { xMm, yMm }: At): number {
  let isInside = hull.length > 2
  let least = Number.POSITIVE_INFINITY
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length]!
    const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm]
    if (dx * (yMm - a.yMm) - dy * (xMm - a.xMm) < 0) isInside = false
    const along = Math.min(
      1,
      Math.max(0, ((xMm - a.xMm) * dx + (yMm - a.yMm) * dy) / Math.max(dx * dx + dy * dy, 1e-12)),
    )
    least = Math.min(least, Math.hypot(xMm - a.xMm - along * dx, yMm - a.yMm - along * dy))
  })
  return isInside ? 0 : least
}
