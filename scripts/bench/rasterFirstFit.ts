import { outlineOf } from '../../src/core/loading/outline.ts'
import { roomInside } from '../../src/core/loading/region.ts'
import { newSeparation, separate } from '../../src/core/loading/separation.ts'
import { shapeAt } from '../../src/core/loading/shape.ts'
import type { Obstacle } from '../../src/core/loading/walls.ts'
import { regionBox } from '../../src/core/loading/squeeze/regionBox.ts'
import { ANGLE_STEPS, type Footprint } from '../../src/core/loading/types.ts'
import { GAP_MM, type ScaledShelf } from './shelfSet.ts'

/** Grid of the raster, mm. */
const GRID_MM = 5

/**
 * What the squeeze is measured against: the largest first, each at the first spot of a grid, row by row, at which one of
 * four quarter turns is clear. False when one finds none.
 */
export function fitsByRaster(shelf: ScaledShelf, footprints: readonly Footprint[]): boolean {
  const standing: Obstacle[] = [...shelf.posts]
  const largestFirst = footprints.map(outlineOf).toSorted((a, b) => b.areaMm2 - a.areaMm2)
  const { minX, minY, maxX, maxY } = regionBox(shelf.region)
  return largestFirst.every((outline) => {
    for (let y = minY; y <= maxY; y += GRID_MM) {
      for (let x = minX; x <= maxX; x += GRID_MM) {
        for (let quarter = 0; quarter < (outline.symmetry === 'every' ? 1 : 4); quarter++) {
          const piece = { shape: shapeAt(outline, (quarter * ANGLE_STEPS) / 4), xMm: x, yMm: y, gapMm: GAP_MM }
          if (!isClear(shelf, standing, piece)) continue
          standing.push(piece)
          return true
        }
      }
    }
    return false
  })
}

const found = newSeparation()
/** What was last in the way: most likely it still is one grid step on. */
let lastInWay: Obstacle | undefined

function isClear({ region }: ScaledShelf, standing: readonly Obstacle[], piece: Obstacle): boolean {
  const { shape, xMm, yMm } = piece
  if (lastInWay !== undefined && standing.includes(lastInWay) && !areApart(piece, lastInWay)) return false
  if (shape.hulls.some((hull) => roomInside(region, hull, shape.radiusMm, xMm, yMm) < 0)) return false
  lastInWay = standing.find((other) => !areApart(piece, other))
  return lastInWay === undefined
}

function areApart({ shape, xMm, yMm }: Obstacle, other: Obstacle): boolean {
  const near = shape.reachMm + other.shape.reachMm + GAP_MM
  if ((xMm - other.xMm) ** 2 + (yMm - other.yMm) ** 2 >= near * near) return true
  const need = shape.radiusMm + other.shape.radiusMm + GAP_MM
  return shape.hulls.every((own) =>
    other.shape.hulls.every((hull) => separate(own, xMm, yMm, hull, other.xMm, other.yMm, need, found) >= need),
  )
}
