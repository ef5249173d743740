import { cosOf, sinOf } from './angles.ts'
import { outlineOf, type Outline } from './outline.ts'
import { convexHullOf } from './polygon.ts'
import { distanceTo, shapeAt, solidsOf, supportOf } from './shape.ts'
import { ANGLE_STEPS, type Point } from './types.ts'

/**
 * How much room an outline leaves around another that stands on the same reference point at the same angle; negative:
 */
export function roomWithin(outer: Outline, inner: Outline): number {
  let best = -Infinity
  for (const solid of solidsOf(shapeAt(outer, 0))) {
    let room = Infinity
    for (const hull of inner.hulls) {
      for (let i = 0; i < hull.length; i += 2)
        room = Math.min(room, -distanceTo(solid, hull[i]!, hull[i + 1]!, Infinity))
    }
    best = Math.max(best, room)
  }
  return best + outer.radiusMm - inner.radiusMm
}

/** A convex outline around several that stand on one reference point, within 1 % of their reach. */
export function outlineAround(outlines: readonly Outline[]): Outline {
  const widest = outlines.reduce((a, b) => (b.reachMm > a.reachMm ? b : a))
  if (outlines.every((outline) => outline === widest || roomWithin(widest, outline) >= 0)) return widest
  return outlineOf({ hulls: [tangentCorners(outlines)], radiusMm: 0 })
}

const TANGENTS = 24

/** Where tangents in even directions meet. */
function tangentCorners(outlines: readonly Outline[]): Point[] {
  const shapes = outlines.map((outline) => shapeAt(outline, 0))
  const steps = Array.from({ length: TANGENTS }, (_, k) => (k * ANGLE_STEPS) / TANGENTS)
  const supports = steps.map((step) => Math.max(...shapes.map((shape) => supportOf(shape, cosOf(step), sinOf(step)))))
  const cross = sinOf(ANGLE_STEPS / TANGENTS)
  const corners = steps.map((step, k): Point => {
    const next = steps[(k + 1) % TANGENTS]!
    const [h, g] = [supports[k]!, supports[(k + 1) % TANGENTS]!]
    return {
      xMm: (h * sinOf(next) - g * sinOf(step)) / cross,
      yMm: (g * cosOf(step) - h * cosOf(next)) / cross,
    }
  })
  return convexHullOf(corners)
}
