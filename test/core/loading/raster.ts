/** Whether pieces of a load overlap, by points of a raster: slow, simple, and apart from packer and checker. */
import {
  ANGLE_STEPS,
  type KilnSpace,
  type Load,
  type LoadItem,
  type LoadKind,
  type Placement,
} from '#core/loading/types.ts'

const STEP_MM = 0.1
/** Points within this depth of an outline's edge belong to neither side. */
const EDGE_MM = 1e-6

type At = { readonly xMm: number; readonly yMm: number }
type Body = {
  readonly key: string
  readonly hulls: readonly (readonly At[])[]
  readonly radiusMm: number
  readonly fromZMm: number
  readonly toZMm: number
  readonly under: string | undefined
}

/**
 * Pairs nearer than the gap, level by level, looked for on a raster of `STEP_MM`: both outlines are grown by half the
 * gap, and only the strip in which their boxes meet is rastered, along the row in which the two come nearest first.
 */
export function overlapsOnRaster(kiln: KilnSpace, kind: LoadKind, items: readonly LoadItem[], load: Load): string[] {
  const gapMm = kind === 'glaze' ? kiln.clearances.glazeGapMm : kiln.clearances.bisqueGapMm
  const known = new Map(items.map((item) => [item.key, item]))
  return load.levels.flatMap(({ placements }) => {
    const bodies = placements.map((placement) => bodyOf(known.get(placement.key)!, placement, gapMm / 2))
    return bodies.flatMap((body, i) =>
      bodies
        .slice(i + 1)
        .filter((other) => mayMeet(body, other) && sharePoint(body, other))
        .map((other) => `${body.key} and ${other.key} overlap`),
    )
  })
}

function bodyOf(item: LoadItem, placement: Placement, growMm: number): Body {
  const { xMm, yMm, zMm, angleIndex, pose } = placement
  const stood = pose === 'on-edge' ? item.stacking.onEdge! : item
  const angle = (2 * Math.PI * angleIndex) / ANGLE_STEPS
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const moved = (p: At): At => ({ xMm: xMm + cos * p.xMm - sin * p.yMm, yMm: yMm + sin * p.xMm + cos * p.yMm })
  return {
    key: placement.key,
    hulls: stood.footprint.hulls.map((hull) => hull.map(moved)),
    radiusMm: stood.footprint.radiusMm + growMm,
    fromZMm: zMm,
    toZMm: zMm + stood.heightMm,
    under: placement.onTopOf?.key,
  }
}

/** At one height, and neither of them in the other's pile. */
const mayMeet = (a: Body, b: Body): boolean =>
  a.fromZMm < b.toZMm - EDGE_MM && b.fromZMm < a.toZMm - EDGE_MM && a.under === undefined && b.under === undefined

/** True when a point of the raster lies in both. */
function sharePoint(a: Body, b: Body): boolean {
  const [boxA, boxB] = [boxOf(a), boxOf(b)]
  const fromX = Math.ceil(Math.max(boxA.minX, boxB.minX) / STEP_MM)
  const toX = Math.floor(Math.min(boxA.maxX, boxB.maxX) / STEP_MM)
  const fromY = Math.ceil(Math.max(boxA.minY, boxB.minY) / STEP_MM)
  const toY = Math.floor(Math.min(boxA.maxY, boxB.maxY) / STEP_MM)
  for (let x = fromX; x <= toX; x++) {
    for (let y = fromY; y <= toY;) {
      const point = { xMm: x * STEP_MM, yMm: y * STEP_MM }
      const outside = Math.max(distanceTo(a, point), distanceTo(b, point))
      if (outside < -EDGE_MM) return true
      // No point nearer than this lies in both, as no outline comes closer than it is.
      y += Math.max(1, Math.floor(outside / STEP_MM))
    }
  }
  return false
}

function boxOf({ hulls, radiusMm }: Body): { minX: number; minY: number; maxX: number; maxY: number } {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const { xMm, yMm } of hulls.flat()) {
    minX = Math.min(minX, xMm - radiusMm)
    maxX = Math.max(maxX, xMm + radiusMm)
    minY = Math.min(minY, yMm - radiusMm)
    maxY = Math.max(maxY, yMm + radiusMm)
  }
  return { minX, minY, maxX, maxY }
}

/** From a point to the nearest of the grown hulls; negative inside. */
function distanceTo({ hulls, radiusMm }: Body, point: At): number {
  let least = Infinity
  for (const hull of hulls) least = Math.min(least, hullDistance(hull, point))
  return least - radiusMm
}

function hullDistance(hull: readonly At[], { xMm, yMm }: At): number {
  let depth = hull.length > 2 ? Infinity : -Infinity
  let nearest = Infinity
  for (let i = 0; i < hull.length; i++) {
    const a = hull[i]!
    const b = hull[i + 1 < hull.length ? i + 1 : 0]!
    const [dx, dy, px, py] = [b.xMm - a.xMm, b.yMm - a.yMm, xMm - a.xMm, yMm - a.yMm]
    const square = dx * dx + dy * dy
    const along = square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / square))
    nearest = Math.min(nearest, Math.sqrt((px - along * dx) ** 2 + (py - along * dy) ** 2))
    if (square > 0) depth = Math.min(depth, (dx * py - dy * px) / Math.sqrt(square))
  }
  return depth >= 0 ? -depth : nearest
}
