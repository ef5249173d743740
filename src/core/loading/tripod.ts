/** Where three posts stand under a shelf, and how large it is. */
import { directionOf } from './angles.ts'
import { roomInside, shrunk, type Region } from './region.ts'
import type { KilnSpace, Point } from './types.ts'

/** What a post's distance from the kiln's axis is worth against steadiness: posts far out leave the middle to ware. By trial. */
const OUTER_WORTH = 0.15

/**
 * Three spots at the edge of what posts may stand under, as steady as can be about the shelf's middle; between halves
 * that lie joined, rather at the ends of the joint than in the middle of it.
 */
export function tripodUnder(kiln: KilnSpace, shelf: Region, middle: Point): Point[] {
  const { clearances, chamber } = kiln
  const spots = edgePoints(shrunk(shelf, clearances.postInsetMm), middle, 48).filter((spot) =>
    chamber.keepOuts.every(
      (k) => Math.hypot(spot.xMm - k.xMm, spot.yMm - k.yMm) > k.radiusMm + clearances.keepOutMm + 30,
    ),
  )
  let best: Point[] = []
  const outer = spots.map(({ xMm, yMm }) => (OUTER_WORTH / 3) * Math.hypot(xMm, yMm))
  let bestWorth = 1e-6
  for (let i = 0; i < spots.length; i++) {
    for (let j = i + 1; j < spots.length; j++) {
      for (let k = j + 1; k < spots.length; k++) {
        const steadiness = steadinessOf(spots[i]!, spots[j]!, spots[k]!, middle)
        if (steadiness <= 0) continue
        const worth = steadiness + outer[i]! + outer[j]! + outer[k]!
        if (worth <= bestWorth + 1e-9) continue
        bestWorth = worth
        best = [spots[i]!, spots[j]!, spots[k]!]
      }
    }
  }
  return best
}

/** Least distance from the middle to a side of the triangle; negative when it would tip. */
function steadinessOf(a: Point, b: Point, c: Point, middle: Point): number {
  return Math.min(leftOf(a, b, middle), leftOf(b, c, middle), leftOf(c, a, middle))
}

function leftOf(a: Point, b: Point, p: Point): number {
  const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm]
  return (dx * (p.yMm - a.yMm) - dy * (p.xMm - a.xMm)) / Math.hypot(dx, dy)
}

/** Where rays from a point inside meet the edge of the region, evenly by angle. */
export function edgePoints(region: Region, from: Point, count: number): Point[] {
  if (roomInside(region, Float64Array.of(from.xMm, from.yMm), 0, 0, 0) <= 0) return []
  return Array.from({ length: count }, (_, k) => {
    const [dx, dy] = directionOf(k / count)
    let [low, high] = [0, 1e4]
    for (let halving = 0; halving < 50; halving++) {
      const middle = (low + high) / 2
      const isInside = roomInside(region, Float64Array.of(from.xMm + middle * dx, from.yMm + middle * dy), 0, 0, 0) >= 0
      if (isInside) low = middle
      else high = middle
    }
    return { xMm: from.xMm + low * dx, yMm: from.yMm + low * dy }
  })
}

/** Area by rays, good to about 0.1 %. */
export function regionAreaMm2(region: Region, from: Point): number {
  const edge = edgePoints(region, from, 180)
  let doubleArea = 0
  edge.forEach((p, i) => {
    const q = edge[(i + 1) % edge.length]!
    doubleArea += p.xMm * q.yMm - q.xMm * p.yMm
  })
  return doubleArea / 2
}
