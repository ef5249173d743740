import { oncePer } from './once.ts'
import { reachOf, type FlatHull, type Outline } from './outline.ts'

const MOST_CORNERS = 10
/** What a corner may stand off while there are more than `MOST_CORNERS`, but no more than twice as many. */
const LIBERAL_MM = 2.5

/**
 * An outline around the given one with few corners: sides are dropped and their neighbours drawn out until they meet,
 * least overshoot first. What keeps clear of it keeps clear of the true one.
 */
export const coarseOutline = oncePer((outline: Outline): Outline => {
  if (outline.hulls.every((hull) => hull.length <= 2 * MOST_CORNERS)) return outline
  const hulls = outline.hulls.map(withFewCorners)
  const reachMm = Math.max(...hulls.map(reachOf)) + outline.radiusMm
  return { ...outline, hulls, reachMm, turns: new Map() }
})

function withFewCorners(hull: FlatHull): FlatHull {
  const corners = Array.from(hull)
  const offs: number[] = []
  const n = (): number => offs.length
  const reckon = (i: number): void => void (offs[i] = meetingBeyond(corners, i, met))
  for (let i = 0; i < hull.length / 2; i++) reckon(i)
  while (n() > MOST_CORNERS) {
    let at = 0
    for (let i = 1; i < n(); i++) if (offs[i]! < offs[at]!) at = i
    if (offs[at] === Infinity || (n() <= 2 * MOST_CORNERS && offs[at]! > LIBERAL_MM)) break
    meetingBeyond(corners, at, met)
    const next = (at + 1) % n()
    corners[2 * at] = met.x
    corners[2 * at + 1] = met.y
    corners.splice(2 * next, 2)
    offs.splice(next, 1)
    const side = next === 0 ? at - 1 : at
    for (let step = -2; step <= 1; step++) reckon((side + step + n()) % n())
  }
  return Float64Array.from(corners)
}

const met = { x: 0, y: 0 }

/** How far off side i its neighbours meet when drawn out, and where; infinite when they do not. */
function meetingBeyond(corners: readonly number[], i: number, out: { x: number; y: number }): number {
  const size = corners.length
  const p = (2 * i - 2 + size) % size
  const a = 2 * i
  const b = (2 * i + 2) % size
  const q = (2 * i + 4) % size
  const ux = corners[a]! - corners[p]!
  const uy = corners[a + 1]! - corners[p + 1]!
  const vx = corners[q]! - corners[b]!
  const vy = corners[q + 1]! - corners[b + 1]!
  const cross = ux * vy - uy * vx
  if (cross <= 1e-9) return Infinity
  const along = ((corners[b]! - corners[p]!) * vy - (corners[b + 1]! - corners[p + 1]!) * vx) / cross
  out.x = corners[p]! + along * ux
  out.y = corners[p + 1]! + along * uy
  const sideX = corners[b]! - corners[a]!
  const sideY = corners[b + 1]! - corners[a + 1]!
  const area = sideX * (out.y - corners[a + 1]!) - sideY * (out.x - corners[a]!)
  return Math.abs(area) / Math.sqrt(sideX * sideX + sideY * sideY)
}
