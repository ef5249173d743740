import type { FlatHull } from './outline.ts'

/** Where two hulls are nearest, or how deep they lie in one another. */
export type Separation = {
  /** Distance; negative: the least push that parts them. */
  distanceMm: number
  /** Unit vector from the first to the second. */
  normalX: number
  normalY: number
  /** The points on each that decide it. */
  firstX: number
  firstY: number
  secondX: number
  secondY: number
}

/** One result that is written over and over: the squeeze asks millions of times. */
export function newSeparation(): Separation {
  return { distanceMm: 0, normalX: 0, normalY: 0, firstX: 0, firstY: 0, secondX: 0, secondY: 0 }
}

/**
 * Signed distance of two convex hulls (points and segments included), exact when they are apart.
 * When a dividing line already proves at least `enoughMm`, that smaller value is returned at once.
 * @param out holds normal and deciding points afterwards
 */
export function separate(
  first: FlatHull,
  firstX: number,
  firstY: number,
  second: FlatHull,
  secondX: number,
  secondY: number,
  enoughMm: number,
  out: Separation,
): number {
  const offsetX = secondX - firstX
  const offsetY = secondY - firstY
  out.distanceMm = -Infinity
  scanSides(first, second, offsetX, offsetY, 1, enoughMm, out)
  if (out.distanceMm < enoughMm) scanSides(second, first, -offsetX, -offsetY, -1, enoughMm, out)
  const isApart = out.distanceMm > 0 || out.distanceMm === -Infinity // two points have no dividing line to offer
  if (isApart && out.distanceMm < enoughMm) scanCorners(first, second, offsetX, offsetY, out)
  out.firstX += firstX
  out.firstY += firstY
  out.secondX += firstX
  out.secondY += firstY
  return out.distanceMm
}

/** Dividing lines along the sides of `own`; coordinates of the result are relative to the first hull's position. */
function scanSides(
  own: FlatHull,
  other: FlatHull,
  offsetX: number,
  offsetY: number,
  sense: number,
  enoughMm: number,
  out: Separation,
): void {
  const sides = own.length
  if (sides < 4) return
  for (let i = 0; i < sides; i += 2) {
    const j = i + 2 < sides ? i + 2 : 0
    const ax = own[i]!
    const ay = own[i + 1]!
    const sideX = own[j]! - ax
    const sideY = own[j + 1]! - ay
    const length = Math.sqrt(sideX * sideX + sideY * sideY)
    tryLine(other, offsetX, offsetY, ax, ay, sideY / length, -sideX / length, sense, out)
    if (sides === 4) tryLine(other, offsetX, offsetY, ax, ay, -sideX / length, -sideY / length, sense, out)
    if (out.distanceMm >= enoughMm) return
  }
}

function tryLine(
  other: FlatHull,
  offsetX: number,
  offsetY: number,
  ax: number,
  ay: number,
  nx: number,
  ny: number,
  sense: number,
  out: Separation,
): void {
  const base = nx * (offsetX - ax) + ny * (offsetY - ay)
  const beaten = out.distanceMm - base
  let least = Infinity
  let at = 0
  for (let k = 0; k < other.length; k += 2) {
    const along = nx * other[k]! + ny * other[k + 1]!
    if (along < least) {
      if (along <= beaten) return // most lines fall to one of the first corners
      least = along
      at = k
    }
  }
  least += base
  out.distanceMm = least
  out.normalX = nx * sense
  out.normalY = ny * sense
  const farX = other[at]! + offsetX
  const farY = other[at + 1]! + offsetY
  if (sense > 0) setPoints(out, farX - nx * least, farY - ny * least, farX, farY)
  else setPoints(out, farX - offsetX, farY - offsetY, farX - nx * least - offsetX, farY - ny * least - offsetY)
}

/** Exact distance of hulls that are apart, by every corner against every side, both ways. */
function scanCorners(first: FlatHull, second: FlatHull, offsetX: number, offsetY: number, out: Separation): void {
  let best = Infinity
  for (let i = 0; i < first.length; i += 2) {
    best = nearestOnSides(first[i]! - offsetX, first[i + 1]! - offsetY, second, offsetX, offsetY, best, false, out)
  }
  for (let i = 0; i < second.length; i += 2) {
    best = nearestOnSides(second[i]! + offsetX, second[i + 1]! + offsetY, first, 0, 0, best, true, out)
  }
  const distance = Math.sqrt(best)
  out.distanceMm = distance
  if (distance > 1e-12) {
    out.normalX = (out.secondX - out.firstX) / distance
    out.normalY = (out.secondY - out.firstY) / distance
  } else {
    out.normalX = 1
    out.normalY = 0
  }
}

function nearestOnSides(
  px: number,
  py: number,
  hull: FlatHull,
  shiftX: number,
  shiftY: number,
  bestSoFar: number,
  isSecondCorner: boolean,
  out: Separation,
): number {
  let best = bestSoFar
  for (let k = 0; k < hull.length; k += 2) {
    const m = k + 2 < hull.length ? k + 2 : 0
    const ax = hull[k]!
    const ay = hull[k + 1]!
    const sideX = hull[m]! - ax
    const sideY = hull[m + 1]! - ay
    const square = sideX * sideX + sideY * sideY
    let along = square > 0 ? ((px - ax) * sideX + (py - ay) * sideY) / square : 0
    along = along < 0 ? 0 : along > 1 ? 1 : along
    const qx = ax + along * sideX
    const qy = ay + along * sideY
    const d = (px - qx) * (px - qx) + (py - qy) * (py - qy)
    if (d >= best) continue
    best = d
    if (isSecondCorner) setPoints(out, qx + shiftX, qy + shiftY, px + shiftX, py + shiftY)
    else setPoints(out, px + shiftX, py + shiftY, qx + shiftX, qy + shiftY)
  }
  return best
}

function setPoints(out: Separation, firstX: number, firstY: number, secondX: number, secondY: number): void {
  out.firstX = firstX
  out.firstY = firstY
  out.secondX = secondX
  out.secondY = secondY
}
