import {
  circleFootprint,
  ovalFootprint,
  polygonFootprint,
  rectangleFootprint,
} from '../../src/core/loading/footprint.ts'
import { outlineOf } from '../../src/core/loading/outline.ts'
import { shelfRegion, type Region } from '../../src/core/loading/region.ts'
import { shapeAt } from '../../src/core/loading/shape.ts'
import type { Obstacle } from '../../src/core/loading/walls.ts'
import type { Footprint, ShelfShape } from '../../src/core/loading/types.ts'
import { seededRng, type Rng } from '../../src/core/rng.ts'

/** A quarter of an inch. */
export const GAP_MM = 6.35
/** Side of a square post. */
export const POST_MM = 38

/** A shelf of any size of one kind, with the spots of its three posts at full size. */
export type ShelfFamily = {
  readonly areaMm2: number
  readonly shapeAt: (scale: number) => ShelfShape
  readonly posts: readonly (readonly [number, number])[]
}

const around = (awayMm: number): [number, number][] => [
  [-awayMm, 0],
  [awayMm / 2, awayMm * 0.85],
  [awayMm / 2, -awayMm * 0.85],
]

/** Round, eight-sided, half and rectangular, of sizes in use. @see FACTS 4.1: 21 in shelves */
export const shelfFamilies: readonly ShelfFamily[] = [
  {
    areaMm2: (Math.PI * 533 ** 2) / 4,
    shapeAt: (scale) => ({ kind: 'round', diameterMm: 533 * scale, share: 'full' }),
    posts: around(215),
  },
  {
    areaMm2: 2 * Math.tan(Math.PI / 8) * 533 ** 2,
    shapeAt: (scale) => ({ kind: 'many-sided', sides: 8, acrossFlatsMm: 533 * scale, share: 'full' }),
    posts: around(200),
  },
  {
    areaMm2: (Math.PI * 533 ** 2) / 8,
    shapeAt: (scale) => ({ kind: 'round', diameterMm: 533 * scale, share: 'half' }),
    posts: [
      [-215, 40],
      [215, 40],
      [0, 225],
    ],
  },
  {
    areaMm2: 610 * 305,
    shapeAt: (scale) => ({ kind: 'rectangular', lengthMm: 610 * scale, widthMm: 305 * scale, share: 'full' }),
    posts: [
      [-275, -120],
      [-275, 120],
      [275, 0],
    ],
  },
]

export type ScaledShelf = { readonly shape: ShelfShape; readonly region: Region; readonly posts: readonly Obstacle[] }

/** The shelf with all lengths times `scale`, its posts at the same places of it but of their own size. */
export function scaled({ shapeAt: shapeOf, posts }: ShelfFamily, scale: number): ScaledShelf {
  const shape = shapeOf(scale)
  const post = shapeAt(postOutline, 0)
  return {
    shape,
    region: shelfRegion(shape, 0, 0, 0),
    posts: posts.map(([x, y]) => ({ shape: post, xMm: x * scale, yMm: y * scale, gapMm: GAP_MM })),
  }
}

const postFootprint = rectangleFootprint(POST_MM, POST_MM)
const postOutline = outlineOf(postFootprint)

/** Mugs with handles, bowls, plates, boxes, dishes, ovals and free shapes, in about the mix of a potter's shelf. */
export function mixedFootprints(count: number, seed: number): Footprint[] {
  const rng = seededRng(seed)
  return Array.from({ length: count }, () => someFootprint(rng))
}

function someFootprint(rng: Rng): Footprint {
  const between = (low: number, high: number) => low + (high - low) * rng.next()
  const kind = rng.next()
  if (kind < 0.45) return mug(between(42, 48))
  if (kind < 0.65) return circleFootprint(2 * between(45, 75))
  if (kind < 0.72) return circleFootprint(2 * between(75, 110))
  if (kind < 0.82) return rectangleFootprint(between(70, 120), between(70, 120), 5)
  if (kind < 0.89) return rectangleFootprint(between(120, 180), between(60, 100), 5)
  if (kind < 0.95) return ovalFootprint(2 * between(70, 100), 2 * between(45, 60))
  const corners = 5 + rng.int(3)
  const away = between(45, 90)
  return polygon(
    Array.from({ length: corners }, (_, k) => {
      const angle = (2 * Math.PI * (k + 0.5 * rng.next())) / corners
      return [away * Math.cos(angle), away * Math.sin(angle)]
    }),
  )
}

/** A round mug and its handle, as one convex outline. */
function mug(radiusMm: number): Footprint {
  const rim = Array.from({ length: 16 }, (_, k): [number, number] => {
    const angle = Math.PI / 3 + (k * (4 * Math.PI)) / 3 / 15
    return [radiusMm * Math.cos(angle), radiusMm * Math.sin(angle)]
  })
  return polygon([...rim, [radiusMm + 28, -10], [radiusMm + 28, 10]])
}

function polygon(corners: readonly (readonly [number, number])[]): Footprint {
  const made = polygonFootprint(corners.map(([xMm, yMm]) => ({ xMm, yMm })))
  if (!('footprint' in made)) throw new Error(made.refused.code)
  return made.footprint
}
