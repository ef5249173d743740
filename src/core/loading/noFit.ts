import type { FlatHull } from './outline.ts'

/**
 * Positions of `moving` (relative to `fixed`) at which the two hulls overlap: the Minkowski sum of the fixed hull and
 * the mirrored moving one, by merging their sides in order of direction. Grown by both radii and the gap, its outside
 * is where the moving piece may stand.
 */
export function noFitHull(fixed: FlatHull, moving: FlatHull): FlatHull {
  const mirrored = moving.map((value) => -value)
  if (fixed.length === 2) return shifted(mirrored, fixed[0]!, fixed[1]!)
  if (mirrored.length === 2) return shifted(fixed, mirrored[0]!, mirrored[1]!)
  const startA = lowest(fixed)
  const startB = lowest(mirrored)
  const [countA, countB] = [fixed.length / 2, mirrored.length / 2]
  const sum: number[] = []
  let [x, y] = [fixed[startA]! + mirrored[startB]!, fixed[startA + 1]! + mirrored[startB + 1]!]
  let [doneA, doneB] = [0, 0]
  while (doneA < countA || doneB < countB) {
    sum.push(x, y)
    const [aX, aY] = sideFrom(fixed, startA + 2 * doneA)
    const [bX, bY] = sideFrom(mirrored, startB + 2 * doneB)
    const cross = doneA === countA ? -1 : doneB === countB ? 1 : aX * bY - aY * bX
    if (cross >= 0) {
      x += aX
      y += aY
      doneA++
    }
    if (cross <= 0) {
      x += bX
      y += bY
      doneB++
    }
  }
  return Float64Array.from(sum)
}

function shifted(hull: FlatHull, byX: number, byY: number): FlatHull {
  return hull.map((value, i) => value + (i % 2 === 0 ? byX : byY))
}

/** Where the side order starts: the lowest corner, the leftmost of several. */
function lowest(hull: FlatHull): number {
  let at = 0
  for (let i = 2; i < hull.length; i += 2) {
    const isLower = hull[i + 1]! < hull[at + 1]! || (hull[i + 1] === hull[at + 1] && hull[i]! < hull[at]!)
    if (isLower) at = i
  }
  return at
}

function sideFrom(hull: FlatHull, corner: number): [number, number] {
  const i = corner % hull.length
  const j = (i + 2) % hull.length
  return [hull[j]! - hull[i]!, hull[j + 1]! - hull[i + 1]!]
}
