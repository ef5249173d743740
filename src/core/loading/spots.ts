import {
  addObstacleCurves,
  addRegionCurves,
  beginCurves,
  boxes,
  count,
  highs,
  isSegment,
  KEY_GRAIN,
  lows,
  numbers,
  order,
  owners,
  planeNormals,
  planeRooms,
  roomMaxX,
  roomMaxY,
  roomMinX,
  roomMinY,
  sortCurves,
  STRIDE,
  sweep,
  TOUCH_MM,
  towardsX,
  towardsY,
  walls,
  type Obstacle,
} from './boundaries.ts'
import { axisDistance, type Region } from './region.ts'
import { supportOf, type NoFit, type Shape } from './shape.ts'

export type { Obstacle } from './boundaries.ts'

/** Where a shape may stand; `score` is how far it then reaches in the direction that is to stay low. */
export type Spot = { readonly xMm: number; readonly yMm: number; readonly score: number }

/**
 * The spot at which a shape reaches least far in direction (dx, dy): the best corner where two boundaries of its free
 * room meet, or the lowest point of a round one. Exact for the hulls given; undefined when none scores below `limit`.
 */
export function lowestSpot(
  shape: Shape,
  region: Region,
  obstacles: readonly Obstacle[],
  dx: number,
  dy: number,
  limit: number,
): Spot | undefined {
  const base = supportOf(shape, dx, dy)
  beginCurves(dx, dy)
  if (!addRegionCurves(region, shape)) return undefined
  for (const obstacle of obstacles) addObstacleCurves(obstacle, shape)
  sortCurves()
  return bestCorner(shape, region, base, limit)
}

let [bestX, bestY, bestScore] = [0, 0, Infinity]

/** Sweeps the curves upwards; those that ended below the sweep can meet nothing more. */
function bestCorner(shape: Shape, region: Region, base: number, limit: number): Spot | undefined {
  // The innermost loop of all packing: an array bound here, and the test of boxes written out, take half the time that
  // they take when they are read from their module at each step.
  const [box, low, high, own, swept] = [boxes, lows, highs, owners, sweep]
  bestScore = limit - base
  const start = bestScore
  let active = 0
  for (let j = 0; j < count; j++) {
    const second = order[j]!
    const from = low[second]!
    if (from >= bestScore + 1 / KEY_GRAIN) break
    if (isSegment[second] === 0) tryLowestPoint(second, shape, region)
    const owner = own[second]
    const minX = box[4 * second]!
    const minY = box[4 * second + 1]!
    const maxX = box[4 * second + 2]!
    const maxY = box[4 * second + 3]!
    let kept = 0
    for (let i = 0; i < active; i++) {
      const first = swept[i]!
      if (high[first]! < from - 2 / KEY_GRAIN) continue
      swept[kept++] = first
      if (own[first] === owner || box[4 * first]! > maxX || box[4 * first + 2]! < minX) continue
      if (box[4 * first + 1]! <= maxY && box[4 * first + 3]! >= minY) meet(first, second, shape, region)
    }
    swept[kept++] = second
    active = kept
  }
  return bestScore < start ? { xMm: bestX, yMm: bestY, score: bestScore + base } : undefined
}

function meet(a: number, b: number, shape: Shape, region: Region): void {
  if (isSegment[a] === 1) {
    if (isSegment[b] === 1) meetSegments(STRIDE * a, STRIDE * b, shape, region)
    else meetSegmentCircle(STRIDE * a, STRIDE * b, shape, region)
  } else if (isSegment[b] === 1) meetSegmentCircle(STRIDE * b, STRIDE * a, shape, region)
  else meetCircles(STRIDE * a, STRIDE * b, shape, region)
}

function meetSegments(a: number, b: number, shape: Shape, region: Region): void {
  const ax = numbers[a]!
  const ay = numbers[a + 1]!
  const bx = numbers[b]!
  const by = numbers[b + 1]!
  const ux = numbers[a + 2]! - ax
  const uy = numbers[a + 3]! - ay
  const vx = numbers[b + 2]! - bx
  const vy = numbers[b + 3]! - by
  const cross = ux * vy - uy * vx
  if (cross > -1e-12 && cross < 1e-12) return
  const s = ((bx - ax) * vy - (by - ay) * vx) / cross
  if (s < -1e-9 || s > 1 + 1e-9) return
  const t = ((bx - ax) * uy - (by - ay) * ux) / cross
  if (t < -1e-9 || t > 1 + 1e-9) return
  trySpot(ax + s * ux, ay + s * uy, shape, region)
}

function meetSegmentCircle(segment: number, circle: number, shape: Shape, region: Region): void {
  const ax = numbers[segment]!
  const ay = numbers[segment + 1]!
  const ux = numbers[segment + 2]! - ax
  const uy = numbers[segment + 3]! - ay
  const fx = ax - numbers[circle]!
  const fy = ay - numbers[circle + 1]!
  const radius = numbers[circle + 2]!
  const square = ux * ux + uy * uy
  if (square === 0) return
  const half = fx * ux + fy * uy
  const disc = half * half - square * (fx * fx + fy * fy - radius * radius)
  if (disc < 0) return
  const root = Math.sqrt(disc)
  for (let sign = -1; sign <= 1; sign += 2) {
    const t = (-half + sign * root) / square
    if (t < -1e-9 || t > 1 + 1e-9) continue
    const x = ax + t * ux
    const y = ay + t * uy
    if (isOnArc(circle, x, y)) trySpot(x, y, shape, region)
  }
}

function meetCircles(a: number, b: number, shape: Shape, region: Region): void {
  const ax = numbers[a]!
  const ay = numbers[a + 1]!
  const ra = numbers[a + 2]!
  const rb = numbers[b + 2]!
  const dx = numbers[b]! - ax
  const dy = numbers[b + 1]! - ay
  const square = dx * dx + dy * dy
  if (square > (ra + rb) * (ra + rb) || square < (ra - rb) * (ra - rb) || square === 0) return
  const along = (square + ra * ra - rb * rb) / (2 * square)
  const across = Math.sqrt(Math.max(0, (ra * ra) / square - along * along))
  for (let sign = -1; sign <= 1; sign += 2) {
    const x = ax + along * dx - sign * across * dy
    const y = ay + along * dy + sign * across * dx
    if (isOnArc(a, x, y) && isOnArc(b, x, y)) trySpot(x, y, shape, region)
  }
}

function tryLowestPoint(curve: number, shape: Shape, region: Region): void {
  const at = STRIDE * curve
  const radius = numbers[at + 2]!
  const [x, y] = [numbers[at]! - radius * towardsX, numbers[at + 1]! - radius * towardsY]
  if (isOnArc(at, x, y)) trySpot(x, y, shape, region)
}

function isOnArc(circle: number, x: number, y: number): boolean {
  const fromX = numbers[circle + 3]!
  const fromY = numbers[circle + 4]!
  if (fromX === 0 && fromY === 0) return true
  const px = x - numbers[circle]!
  const py = y - numbers[circle + 1]!
  const slack = -1e-9 * numbers[circle + 2]!
  return fromX * py - fromY * px >= slack && px * numbers[circle + 6]! - py * numbers[circle + 5]! >= slack
}

function trySpot(x: number, y: number, shape: Shape, region: Region): void {
  const score = towardsX * x + towardsY * y
  if (score >= bestScore - 1e-9) return
  if (x > roomMaxX + TOUCH_MM || x < roomMinX - TOUCH_MM || y > roomMaxY + TOUCH_MM || y < roomMinY - TOUCH_MM) return
  if (!isInRegion(shape, region, x, y)) return
  for (const wall of walls) if (isWithin(wall.noFit, wall.clear, x - wall.xMm, y - wall.yMm)) return
  bestX = x
  bestY = y
  bestScore = score
}

function isInRegion(shape: Shape, region: Region, x: number, y: number): boolean {
  for (let i = 0, k = 0; k < planeRooms.length; i += 3, k++) {
    if (planeNormals[i]! * x + planeNormals[i + 1]! * y > planeRooms[k]! + TOUCH_MM) return false
  }
  const { capsules } = region
  for (let i = 0; i < capsules.length; i += 5) {
    const radius = capsules[i + 4]! - shape.radiusMm + TOUCH_MM
    for (const hull of shape.hulls) {
      for (let k = 0; k < hull.length; k += 2) {
        if (axisDistance(capsules, i, hull[k]! + x, hull[k + 1]! + y) > radius) return false
      }
    }
  }
  return true
}

/** True when the point lies nearer than `clear` to the hull, or in it. */
function isWithin(noFit: NoFit, clear: number, x: number, y: number): boolean {
  const { corners, normals, offsets, box } = noFit
  const reach = clear - TOUCH_MM
  if (x <= box.minX - reach || x >= box.maxX + reach || y <= box.minY - reach || y >= box.maxY + reach) return false
  if (corners.length === 2) {
    const [px, py] = [x - corners[0]!, y - corners[1]!]
    return px * px + py * py < reach * reach
  }
  let outside = -Infinity
  for (let i = 0, k = 0; i < corners.length; i += 2, k++) {
    const past = normals[i]! * x + normals[i + 1]! * y - offsets[k]!
    if (past >= reach) return false
    if (past > outside) outside = past
  }
  if (outside <= 0 && corners.length > 4) return reach > outside
  return squareToSides(noFit, x, y) < reach * reach
}

function squareToSides(noFit: NoFit, x: number, y: number): number {
  const { corners } = noFit
  let least = Infinity
  for (let i = 0; i < corners.length; i += 2) {
    const j = i + 2 < corners.length ? i + 2 : 0
    const sideX = corners[j]! - corners[i]!
    const sideY = corners[j + 1]! - corners[i + 1]!
    const px = x - corners[i]!
    const py = y - corners[i + 1]!
    const along = Math.max(0, Math.min(1, (px * sideX + py * sideY) / (sideX * sideX + sideY * sideY)))
    const qx = px - along * sideX
    const qy = py - along * sideY
    const square = qx * qx + qy * qy
    if (square < least) least = square
  }
  return least
}
