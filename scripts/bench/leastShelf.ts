import { distanceMm, FORGIVEN_MM, placed, roomMm } from '../../src/core/loading/check/geometry.ts'
import { shelfRoomMm } from '../../src/core/loading/check/kiln.ts'
import { rectangleFootprint } from '../../src/core/loading/footprint.ts'
import { grownAreaMm2, outlineOf } from '../../src/core/loading/outline.ts'
import { squeeze, type Stance } from '../../src/core/loading/squeeze/squeeze.ts'
import type { Footprint, PlacedShelf, ShelfKind } from '../../src/core/loading/types.ts'
import { meter } from './cpuMeter.ts'
import { fitsByRaster } from './rasterFirstFit.ts'
import { GAP_MM, POST_MM, scaled, type ScaledShelf, type ShelfFamily } from './shelfSet.ts'

/** Shelves tried next, as shares of the least so far; the next one when a search fails. */
const SHRINKS = [0.985, 0.994, 0.998]

/** Least scale tried at which first fit finds room for all, upwards in small steps from a shelf that they fill by 80 %. */
export function leastByRaster(family: ShelfFamily, footprints: readonly Footprint[]): number {
  const areaMm2 = footprints.reduce((sum, footprint) => sum + grownAreaMm2(outlineOf(footprint), GAP_MM / 2), 0)
  let scale = Math.sqrt(areaMm2 / 0.8 / family.areaMm2)
  while (!fitsByRaster(scaled(family, scale), footprints)) scale *= 1.005
  return scale
}

/** Least scale reached in the CPU time: after each success a smaller shelf, from where the pieces stand. */
export function leastBySqueeze(
  family: ShelfFamily,
  footprints: readonly Footprint[],
  from: number,
  seed: number,
  cpuS: number,
): number {
  const usedS = meter()
  let best: { scale: number; stances: readonly (Stance | undefined)[] } = {
    scale: from,
    stances: footprints.map(() => undefined),
  }
  let step = 0
  for (let attempt = 0; usedS() < cpuS; attempt++) {
    const shrink = SHRINKS[step]!
    const scale = best.scale * shrink
    const shelf = scaled(family, scale)
    const start = best.stances.map(
      (stance) => stance && { ...stance, xMm: stance.xMm * shrink, yMm: stance.yMm * shrink },
    )
    const pieces = footprints.map((footprint) => ({
      outline: outlineOf(footprint),
      rotation: 'any' as const,
      region: shelf.region,
    }))
    const search = { seed: seed * 1_000 + attempt, descents: 300, cancelled: () => usedS() > cpuS }
    const stances = squeeze({ pieces, obstacles: shelf.posts, gapMm: GAP_MM }, start, search)
    if (stances !== undefined) {
      check(shelf, footprints, stances)
      best = { scale, stances }
    } else step = (step + 1) % SHRINKS.length
  }
  return best.scale
}

/** By the load checker's geometry, which shares nothing with the squeeze. */
function check(shelf: ScaledShelf, footprints: readonly Footprint[], stances: readonly Stance[]): void {
  const kind: ShelfKind = { id: 'shelf', shape: shelf.shape, thicknessMm: 19, massKg: 8, count: 1 }
  const lying: PlacedShelf = { shelfId: 'shelf', xMm: 0, yMm: 0, angleIndex: 0 }
  const outlines = footprints.map((footprint, i) =>
    placed(footprint, stances[i]!.xMm, stances[i]!.yMm, stances[i]!.angleIndex),
  )
  const posts = shelf.posts.map(({ xMm, yMm }) => placed(rectangleFootprint(POST_MM, POST_MM), xMm, yMm, 0))
  outlines.forEach((outline, i) => {
    const room = roomMm(outline, (p) => shelfRoomMm(kind, lying, p))
    const gap = Math.min(...[...posts, ...outlines.slice(0, i)].map((other) => distanceMm(outline, other)))
    if (room < -FORGIVEN_MM || gap < GAP_MM - FORGIVEN_MM)
      throw new Error(`piece ${i}: ${room} mm inside, ${gap} mm clear`)
  })
}
