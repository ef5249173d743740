import { axisDistance, roomInside, type Region } from './region.ts'
import { noFitsOf, supportOf, type NoFit, type Shape } from './shape.ts'

/** Something that stands on a shelf already, with the gap it wants. */
export type Obstacle = { readonly shape: Shape; readonly xMm: number; readonly yMm: number; readonly gapMm: number }

/** Where a shape may stand; `score` is how far it then reaches in the direction that is to stay low. */
export type Spot = { readonly xMm: number; readonly yMm: number; readonly score: number }

/** Slack of the packer's own tests, mm; a hundredth of what the checker forgives. */
const TOUCH_MM = 1e-8
const OPEN_LINE_MM = 2e4

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

/** True when the shape may stand there: inside the region and clear of every obstacle. */
export function isFree(
  shape: Shape,
  region: Region,
  obstacles: readonly Obstacle[],
  xMm: number,
  yMm: number,
): boolean {
  for (const hull of shape.hulls) {
    if (roomInside(region, hull, shape.radiusMm, xMm, yMm) < -TOUCH_MM) return false
  }
  for (const obstacle of obstacles) {
    const clear = shape.radiusMm + obstacle.shape.radiusMm + obstacle.gapMm
    const [x, y] = [xMm - obstacle.xMm, yMm - obstacle.yMm]
    for (const noFit of noFitsOf(obstacle.shape, shape)) if (isWithin(noFit, clear, x, y)) return false
  }
  return true
}

// Boundaries of the free room are kept in flat arrays that are filled anew for each question: circles as centre,
// radius and the two normals between which they count; segments as two ends.
const STRIDE = 8
let capacity = 1_024
let numbers = new Float64Array(capacity * STRIDE)
let isSegment = new Uint8Array(capacity)
let owners = new Int32Array(capacity)
let lows = new Float64Array(capacity)
let boxes = new Float64Array(capacity * 4)
let highs = new Float64Array(capacity)
let keys = new Float64Array(capacity)
let order = new Int32Array(capacity)
let sweep = new Int32Array(capacity)
const KEY_GRAIN = 1_024
const MOST_CURVES = 2 ** 20
let count = 0
let owner = 0
let [towardsX, towardsY] = [0, 1]
/** Box of the spots the region leaves to the shape, and the room each of its planes leaves. */
let [roomMinX, roomMinY, roomMaxX, roomMaxY] = [-OPEN_LINE_MM, -OPEN_LINE_MM, OPEN_LINE_MM, OPEN_LINE_MM]
let planeNormals: readonly number[] = []
const planeRooms: number[] = []
let walls: { noFit: NoFit; clear: number; xMm: number; yMm: number }[] = []

function beginCurves(dx: number, dy: number): void {
  count = 0
  owner = 0
  towardsX = dx
  towardsY = dy
  walls = []
  roomMinX = -OPEN_LINE_MM
  roomMinY = -OPEN_LINE_MM
  roomMaxX = OPEN_LINE_MM
  roomMaxY = OPEN_LINE_MM
}

/** False when the shape is too large for the region at this angle. */
function addRegionCurves(region: Region, shape: Shape): boolean {
  const { capsules, planes } = region
  planeNormals = planes
  planeRooms.length = 0
  for (let i = 0; i < planes.length; i += 3) {
    const nx = planes[i]!
    const ny = planes[i + 1]!
    const d = planes[i + 2]! - supportOf(shape, nx, ny)
    planeRooms.push(d)
    if (ny === 0) clampX(d, nx)
    if (nx === 0) clampY(d, ny)
  }
  for (let i = 0; i < capsules.length; i += 5) {
    if (capsules[i + 4]! < shape.radiusMm) return false
    const reach = capsules[i + 4]!
    roomMaxX = Math.min(roomMaxX, Math.max(capsules[i]!, capsules[i + 2]!) + reach - shape.box.maxX)
    roomMinX = Math.max(roomMinX, Math.min(capsules[i]!, capsules[i + 2]!) - reach - shape.box.minX)
    roomMaxY = Math.min(roomMaxY, Math.max(capsules[i + 1]!, capsules[i + 3]!) + reach - shape.box.maxY)
    roomMinY = Math.max(roomMinY, Math.min(capsules[i + 1]!, capsules[i + 3]!) - reach - shape.box.minY)
  }
  if (roomMinX > roomMaxX + TOUCH_MM || roomMinY > roomMaxY + TOUCH_MM) return false
  for (let i = 0; i < planes.length; i += 3) {
    const nx = planes[i]!
    const ny = planes[i + 1]!
    const px = nx * planeRooms[i / 3]!
    const py = ny * planeRooms[i / 3]!
    owner++
    addSegment(px + ny * OPEN_LINE_MM, py - nx * OPEN_LINE_MM, px - ny * OPEN_LINE_MM, py + nx * OPEN_LINE_MM)
  }
  for (let i = 0; i < capsules.length; i += 5) {
    const radius = capsules[i + 4]! - shape.radiusMm
    for (const hull of shape.hulls) {
      for (let k = 0; k < hull.length; k += 2) addCapsule(capsules, i, radius, hull[k]!, hull[k + 1]!)
    }
  }
  return true
}

function addCapsule(capsules: readonly number[], at: number, radius: number, vx: number, vy: number): void {
  const [ax, ay] = [capsules[at]! - vx, capsules[at + 1]! - vy]
  const [bx, by] = [capsules[at + 2]! - vx, capsules[at + 3]! - vy]
  owner++
  addCircle(ax, ay, radius, 0, 0, 0, 0)
  if (ax === bx && ay === by) return
  owner++
  addCircle(bx, by, radius, 0, 0, 0, 0)
  const length = Math.hypot(bx - ax, by - ay)
  const [sx, sy] = [(-(by - ay) / length) * radius, ((bx - ax) / length) * radius]
  owner++
  addSegment(ax + sx, ay + sy, bx + sx, by + sy)
  owner++
  addSegment(ax - sx, ay - sy, bx - sx, by - sy)
}

function addObstacleCurves(obstacle: Obstacle, shape: Shape): void {
  const clear = shape.radiusMm + obstacle.shape.radiusMm + obstacle.gapMm
  const { xMm, yMm } = obstacle
  for (const noFit of noFitsOf(obstacle.shape, shape)) {
    owner++
    walls.push({ noFit, clear, xMm, yMm })
    const { corners, normals } = noFit
    const sides = corners.length
    if (sides === 2) {
      addCircle(corners[0]! + xMm, corners[1]! + yMm, clear, 0, 0, 0, 0)
      continue
    }
    for (let i = 0; i < sides; i += 2) {
      const before = i === 0 ? sides - 2 : i - 2
      const after = i + 2 < sides ? i + 2 : 0
      const [nx, ny] = [normals[i]!, normals[i + 1]!]
      const [cx, cy] = [corners[i]! + xMm, corners[i + 1]! + yMm]
      addCircle(cx, cy, clear, normals[before]!, normals[before + 1]!, nx, ny)
      const [gx, gy] = [nx * clear, ny * clear]
      addSegment(cx + gx, cy + gy, corners[after]! + xMm + gx, corners[after + 1]! + yMm + gy)
    }
  }
}

function addCircle(
  cx: number,
  cy: number,
  radius: number,
  fromX: number,
  fromY: number,
  toX: number,
  toY: number,
): void {
  const at = nextCurve(0, cx - radius, cy - radius, cx + radius, cy + radius)
  if (at < 0) return
  numbers[at] = cx
  numbers[at + 1] = cy
  numbers[at + 2] = radius
  numbers[at + 3] = fromX
  numbers[at + 4] = fromY
  numbers[at + 5] = toX
  numbers[at + 6] = toY
  const middle = towardsX * cx + towardsY * cy
  lows[count - 1] = middle - radius
  highs[count - 1] = middle + radius
}

function addSegment(ax: number, ay: number, bx: number, by: number): void {
  const at = nextCurve(1, Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by))
  if (at < 0) return
  numbers[at] = ax
  numbers[at + 1] = ay
  numbers[at + 2] = bx
  numbers[at + 3] = by
  const first = towardsX * ax + towardsY * ay
  const second = towardsX * bx + towardsY * by
  lows[count - 1] = Math.min(first, second)
  highs[count - 1] = Math.max(first, second)
}

function clampX(d: number, sense: number): void {
  if (sense > 0) roomMaxX = Math.min(roomMaxX, d)
  else roomMinX = Math.max(roomMinX, -d)
}

function clampY(d: number, sense: number): void {
  if (sense > 0) roomMaxY = Math.min(roomMaxY, d)
  else roomMinY = Math.max(roomMinY, -d)
}

/** Makes place for a curve; -1 when its box lies outside the room, so that no spot can be on it. */
function nextCurve(segment: 0 | 1, minX: number, minY: number, maxX: number, maxY: number): number {
  if (minX > roomMaxX + TOUCH_MM || maxX < roomMinX - TOUCH_MM) return -1
  if (minY > roomMaxY + TOUCH_MM || maxY < roomMinY - TOUCH_MM) return -1
  if (count === capacity) growCurves()
  isSegment[count] = segment
  owners[count] = owner
  boxes[4 * count] = minX - TOUCH_MM
  boxes[4 * count + 1] = minY - TOUCH_MM
  boxes[4 * count + 2] = maxX + TOUCH_MM
  boxes[4 * count + 3] = maxY + TOUCH_MM
  return STRIDE * count++
}

function growCurves(): void {
  capacity *= 2
  const grown = <T extends Float64Array | Uint8Array | Int32Array>(next: T, old: T): T => {
    next.set(old)
    return next
  }
  numbers = grown(new Float64Array(capacity * STRIDE), numbers)
  isSegment = grown(new Uint8Array(capacity), isSegment)
  owners = grown(new Int32Array(capacity), owners)
  lows = grown(new Float64Array(capacity), lows)
  highs = grown(new Float64Array(capacity), highs)
  keys = new Float64Array(capacity)
  order = new Int32Array(capacity)
  sweep = new Int32Array(capacity)
  boxes = grown(new Float64Array(capacity * 4), boxes)
}

/** Curves by their lowest point; the key holds the index too, so that numbers alone are sorted. */
function sortCurves(): void {
  for (let i = 0; i < count; i++) keys[i] = Math.floor((lows[i]! + OPEN_LINE_MM * 4) * KEY_GRAIN) * MOST_CURVES + i
  const sorted = keys.subarray(0, count).sort()
  for (let i = 0; i < count; i++) order[i] = sorted[i]! % MOST_CURVES
}

let [bestX, bestY, bestScore] = [0, 0, Infinity]

/** Sweeps the curves upwards; those that ended below the sweep can meet nothing more. */
function bestCorner(shape: Shape, region: Region, base: number, limit: number): Spot | undefined {
  bestScore = limit - base
  const start = bestScore
  let active = 0
  for (let j = 0; j < count; j++) {
    const second = order[j]!
    const low = lows[second]!
    if (low >= bestScore + 1 / KEY_GRAIN) break
    if (isSegment[second] === 0) tryLowestPoint(second, shape, region)
    const own = owners[second]
    let kept = 0
    for (let i = 0; i < active; i++) {
      const first = sweep[i]!
      if (highs[first]! < low - 2 / KEY_GRAIN) continue
      sweep[kept++] = first
      if (owners[first] !== own && boxesMeet(first, second)) meet(first, second, shape, region)
    }
    sweep[kept++] = second
    active = kept
  }
  return bestScore < start ? { xMm: bestX, yMm: bestY, score: bestScore + base } : undefined
}

function boxesMeet(a: number, b: number): boolean {
  const i = 4 * a
  const j = 4 * b
  return (
    boxes[i]! <= boxes[j + 2]! &&
    boxes[j]! <= boxes[i + 2]! &&
    boxes[i + 1]! <= boxes[j + 3]! &&
    boxes[j + 1]! <= boxes[i + 3]!
  )
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
