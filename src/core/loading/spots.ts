import {
  addObstacleCurves,
  addRegionCurves,
  nearCount,
  nearWalls,
  openCell,
  openRegion,
  planeRooms,
} from './boundaries.ts'
import {
  boxes,
  cell,
  count,
  highs,
  isSegment,
  lows,
  numbers,
  order,
  owners,
  sortCurves,
  STRIDE,
  sweep,
  TOUCH_MM,
  towards,
} from './curves.ts'
import { axisDistance, type Region } from './region.ts'
import { GRID_MM, mayStandNear, probesOf, type Grid, type RoomMap } from './roomMap.ts'
import { supportOf, type Shape } from './shape.ts'
import { isInWall, type Obstacle } from './walls.ts'

/** Where a shape may stand; `score` is how far it then reaches in the direction that is to stay low. */
export type Spot = { readonly xMm: number; readonly yMm: number; readonly score: number }

/** A shelf as it is filled: what stands there and how much room that leaves. */
export type Ground = {
  readonly grid: Grid
  readonly room: RoomMap
  readonly obstacles: readonly Obstacle[]
  /** Unit vector of the direction that is to stay low, and points of the raster by their height in it. */
  readonly towardsX: number
  readonly towardsY: number
  readonly pointsUpwards: Int32Array
  /** Those with room for ware of common size. */
  readonly openPoints: Int32Array
}

/**
 * The spot at which a shape reaches least far in the direction of the ground: the best corner where two boundaries of
 * its free room meet, or the lowest point of a round one. Exact for the hulls given: the raster only skips cells in
 * which the shape certainly cannot stand. Undefined when none scores below `limit`.
 */
export function lowestSpot(shape: Shape, region: Region, ground: Ground, limit: number): Spot | undefined {
  const { grid, room, obstacles, towardsX: dx, towardsY: dy } = ground
  if (!openRegion(region, shape, dx, dy, obstacles.length)) return undefined
  const base = supportOf(shape, dx, dy)
  const probes = probesOf(shape, grid.columns)
  const points = probes.isMiddleOpen ? ground.openPoints : ground.pointsUpwards
  const halfMm = GRID_MM / 2 + TOUCH_MM
  const cellMm = (Math.abs(dx) + Math.abs(dy)) * halfMm
  const start = limit - base
  bestScore = start
  for (let i = 0; i < points.length; i++) {
    const at = points[i]!
    if (!mayStandNear(room, probes, at)) continue
    const row = Math.floor(at / grid.columns)
    const x = grid.minX + (at - row * grid.columns) * GRID_MM
    const y = grid.minY + row * GRID_MM
    if (dx * x + dy * y - cellMm >= bestScore) break
    if (!openCell(x, y, halfMm)) continue
    addRegionCurves(region, shape)
    addObstacleCurves(obstacles, shape)
    sortCurves()
    bestCorner(shape, region)
  }
  return bestScore < start ? { xMm: bestX, yMm: bestY, score: bestScore + base } : undefined
}

let [bestX, bestY, bestScore] = [0, 0, Infinity]

/** Sweeps the curves upwards; those that ended below the sweep can meet nothing more. */
function bestCorner(shape: Shape, region: Region): void {
  // The innermost loop of all packing: an array bound here, and the test of boxes written out, take half the time that
  // they take when they are read from their module at each step.
  const [box, low, high, own, swept] = [boxes, lows, highs, owners, sweep]
  let active = 0
  for (let j = 0; j < count; j++) {
    const second = order[j]!
    const from = low[second]!
    if (from >= bestScore) break
    if (isSegment[second] === 0) tryLowestPoint(second, shape, region)
    const owner = own[second]
    const minX = box[4 * second]!
    const minY = box[4 * second + 1]!
    const maxX = box[4 * second + 2]!
    const maxY = box[4 * second + 3]!
    let kept = 0
    for (let i = 0; i < active; i++) {
      const first = swept[i]!
      if (high[first]! < from - TOUCH_MM) continue
      swept[kept++] = first
      if (own[first] === owner || box[4 * first]! > maxX || box[4 * first + 2]! < minX) continue
      if (box[4 * first + 1]! <= maxY && box[4 * first + 3]! >= minY) meet(first, second, shape, region)
    }
    swept[kept++] = second
    active = kept
  }
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
  const [x, y] = [numbers[at]! - radius * towards[0]!, numbers[at + 1]! - radius * towards[1]!]
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
  const score = towards[0]! * x + towards[1]! * y
  if (score >= bestScore - 1e-9) return
  if (x > cell[2]! + TOUCH_MM || x < cell[0]! - TOUCH_MM || y > cell[3]! + TOUCH_MM || y < cell[1]! - TOUCH_MM) return
  if (!isInRegion(shape, region, x, y)) return
  for (let k = 0; k < nearCount; k++) if (isInWall(nearWalls[k]!, x, y)) return
  bestX = x
  bestY = y
  bestScore = score
}

function isInRegion(shape: Shape, { capsules, planes }: Region, x: number, y: number): boolean {
  for (let i = 0, k = 0; i < planes.length; i += 3, k++) {
    if (planes[i]! * x + planes[i + 1]! * y > planeRooms[k]! + TOUCH_MM) return false
  }
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
