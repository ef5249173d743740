import type { FlatHull, Outline } from './outline.ts'

const MOST_CORNERS = 10
/** What a corner may stand off while there are more than `MOST_CORNERS`, but no more than twice as many. */
const LIBERAL_MM = 2.5

const known = new WeakMap<Outline, Outline>()

/**
 * An outline around the given one with few corners: sides are dropped and their neighbours drawn out until they meet,
 * least overshoot first. What keeps clear of it keeps clear of the true one.
 */
export function coarseOutline(outline: Outline): Outline {
  if (outline.hulls.every((hull) => hull.length <= 2 * MOST_CORNERS)) return outline
  let coarse = known.get(outline)
  if (coarse === undefined) {
    const hulls = outline.hulls.map(withFewCorners)
    const reachMm = Math.max(...hulls.map((hull) => reachOf(hull))) + outline.radiusMm
    coarse = { ...outline, hulls, reachMm, turns: new Map() }
    known.set(outline, coarse)
  }
  return coarse
}

function withFewCorners(hull: FlatHull): FlatHull {
  let corners = Array.from(hull)
  while (corners.length > 2 * MOST_CORNERS) {
    let [least, at] = [Infinity, -1]
    let meeting: readonly [number, number] | undefined
    for (let i = 0; i < corners.length / 2; i++) {
      const met = meetingBeyond(corners, i)
      if (met === undefined || met[2] >= least) continue
      least = met[2]
      at = i
      meeting = [met[0], met[1]]
    }
    if (meeting === undefined || (corners.length <= 4 * MOST_CORNERS && least > LIBERAL_MM)) break
    corners = withoutSide(corners, at, meeting)
  }
  return Float64Array.from(corners)
}

/** Where the neighbours of side i meet when drawn out, and how far that stands off the side. */
function meetingBeyond(corners: readonly number[], i: number): readonly [number, number, number] | undefined {
  const at = (k: number): [number, number] => {
    const j = (2 * (k + corners.length)) % corners.length
    return [corners[j]!, corners[j + 1]!]
  }
  const [p, a, b, q] = [at(i - 1), at(i), at(i + 1), at(i + 2)]
  const [ux, uy] = [a[0] - p[0], a[1] - p[1]]
  const [vx, vy] = [q[0] - b[0], q[1] - b[1]]
  const cross = ux * vy - uy * vx
  if (cross <= 1e-9) return undefined
  const along = ((b[0] - p[0]) * vy - (b[1] - p[1]) * vx) / cross
  const [x, y] = [p[0] + along * ux, p[1] + along * uy]
  const side = Math.hypot(b[0] - a[0], b[1] - a[1])
  const offMm = Math.abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / side
  return [x, y, offMm]
}

function withoutSide(corners: readonly number[], i: number, meeting: readonly [number, number]): number[] {
  const count = corners.length / 2
  const next = (i + 1) % count
  const kept: number[] = []
  for (let k = 0; k < count; k++) {
    if (k === next) continue
    if (k === i) kept.push(...meeting)
    else kept.push(corners[2 * k]!, corners[2 * k + 1]!)
  }
  return kept
}

function reachOf(hull: FlatHull): number {
  let reach = 0
  for (let i = 0; i < hull.length; i += 2) reach = Math.max(reach, Math.hypot(hull[i]!, hull[i + 1]!))
  return reach
}
