/** Boundaries of the room that is free to a shape: what `spots.ts` sweeps. One question at a time. */
import type { Region } from './region.ts'
import { noFitsOf, supportOf, type NoFit, type Shape } from './shape.ts'

/** Something that stands on a shelf already, with the gap it wants. */
export type Obstacle = { readonly shape: Shape; readonly xMm: number; readonly yMm: number; readonly gapMm: number }

/** Slack of the packer's own tests, mm; a hundredth of what the checker forgives. */
export const TOUCH_MM = 1e-8
/** Half the length of a line that stands for an endless one, mm. */
const OPEN_LINE_MM = 2e4

// Boundaries of the free room are kept in flat arrays that are filled anew for each question: circles as centre,
// radius and the two normals between which they count; segments as two ends.
export const STRIDE = 8
let capacity = 256
export let numbers = new Float64Array(capacity * STRIDE)
export let isSegment = new Uint8Array(capacity)
export let owners = new Int32Array(capacity)
export let lows = new Float64Array(capacity)
export let boxes = new Float64Array(capacity * 4)
export let highs = new Float64Array(capacity)
export let order = new Int32Array(capacity)
export let sweep = new Int32Array(capacity)
export let count = 0
let owner = 0
export let [towardsX, towardsY] = [0, 1]
/** Box of the spots the region leaves to the shape, and the room each of its planes leaves. */
export let [roomMinX, roomMinY, roomMaxX, roomMaxY] = [-OPEN_LINE_MM, -OPEN_LINE_MM, OPEN_LINE_MM, OPEN_LINE_MM]
export let planeNormals: readonly number[] = []
export const planeRooms: number[] = []
/** Grown obstacles near the cell, which a spot must not lie in. */
export const wallHulls: NoFit[] = []
/** For each of them its place and how far to keep from it. */
export const wallNumbers: number[] = []
let [wholeMinX, wholeMinY, wholeMaxX, wholeMaxY] = [0, 0, 0, 0]

/** The room a region leaves to a shape in one direction; false when the shape is too large for it at this angle. */
export function openRegion(region: Region, shape: Shape, dx: number, dy: number): boolean {
  const { capsules, planes } = region
  towardsX = dx
  towardsY = dy
  roomMinX = -OPEN_LINE_MM
  roomMinY = -OPEN_LINE_MM
  roomMaxX = OPEN_LINE_MM
  roomMaxY = OPEN_LINE_MM
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
  const { box } = shape
  for (let i = 0; i < capsules.length; i += 5) {
    const reach = capsules[i + 4]!
    if (reach < shape.radiusMm) return false
    roomMaxX = Math.min(roomMaxX, Math.max(capsules[i]!, capsules[i + 2]!) + reach - box.maxX)
    roomMinX = Math.max(roomMinX, Math.min(capsules[i]!, capsules[i + 2]!) - reach - box.minX)
    roomMaxY = Math.min(roomMaxY, Math.max(capsules[i + 1]!, capsules[i + 3]!) + reach - box.maxY)
    roomMinY = Math.max(roomMinY, Math.min(capsules[i + 1]!, capsules[i + 3]!) - reach - box.minY)
  }
  wholeMinX = roomMinX
  wholeMinY = roomMinY
  wholeMaxX = roomMaxX
  wholeMaxY = roomMaxY
  return roomMinX <= roomMaxX + TOUCH_MM && roomMinY <= roomMaxY + TOUCH_MM
}

/** Begins anew for the spots within `halfMm` of a point in x and in y; false when the region has none there. */
export function openCell(x: number, y: number, halfMm: number): boolean {
  count = 0
  owner = 0
  wallHulls.length = 0
  wallNumbers.length = 0
  roomMinX = Math.max(wholeMinX, x - halfMm)
  roomMinY = Math.max(wholeMinY, y - halfMm)
  roomMaxX = Math.min(wholeMaxX, x + halfMm)
  roomMaxY = Math.min(wholeMaxY, y + halfMm)
  return roomMinX <= roomMaxX + TOUCH_MM && roomMinY <= roomMaxY + TOUCH_MM
}

export function addRegionCurves({ capsules, planes }: Region, shape: Shape): void {
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

export function addObstacleCurves(obstacle: Obstacle, shape: Shape): void {
  const { xMm, yMm, gapMm } = obstacle
  const other = obstacle.shape.box
  const { box } = shape
  if (xMm + other.minX - box.maxX - gapMm > roomMaxX || xMm + other.maxX - box.minX + gapMm < roomMinX) return
  if (yMm + other.minY - box.maxY - gapMm > roomMaxY || yMm + other.maxY - box.minY + gapMm < roomMinY) return
  const clear = shape.radiusMm + obstacle.shape.radiusMm + gapMm
  for (const noFit of noFitsOf(obstacle.shape, shape)) {
    owner++
    wallHulls.push(noFit)
    wallNumbers.push(xMm, yMm, clear)
    const { corners, normals } = noFit
    const sides = corners.length
    if (sides === 2) {
      addCircle(corners[0]! + xMm, corners[1]! + yMm, clear, 0, 0, 0, 0)
      continue
    }
    for (let i = 0; i < sides; i += 2) {
      const before = i === 0 ? sides - 2 : i - 2
      const after = i + 2 < sides ? i + 2 : 0
      const nx = normals[i]!
      const ny = normals[i + 1]!
      const cx = corners[i]! + xMm
      const cy = corners[i + 1]! + yMm
      addCircle(cx, cy, clear, normals[before]!, normals[before + 1]!, nx, ny)
      const gx = nx * clear
      const gy = ny * clear
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
  if (radius < nearestMm(cx, cy) || radius > farthestMm(cx, cy)) return
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

/** From a point to the nearest and the farthest point of the room, a touch less and more. */
function nearestMm(x: number, y: number): number {
  const dx = Math.max(0, roomMinX - x, x - roomMaxX)
  const dy = Math.max(0, roomMinY - y, y - roomMaxY)
  return Math.sqrt(dx * dx + dy * dy) - 2 * TOUCH_MM
}

function farthestMm(x: number, y: number): number {
  const dx = Math.max(x - roomMinX, roomMaxX - x)
  const dy = Math.max(y - roomMinY, roomMaxY - y)
  return Math.sqrt(dx * dx + dy * dy) + 2 * TOUCH_MM
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
  order = new Int32Array(capacity)
  sweep = new Int32Array(capacity)
  boxes = grown(new Float64Array(capacity * 4), boxes)
}

/** Curves by their lowest point; a cell has few. */
export function sortCurves(): void {
  for (let i = 0; i < count; i++) {
    const low = lows[i]!
    let at = i
    for (; at > 0 && lows[order[at - 1]!]! > low; at--) order[at] = order[at - 1]!
    order[at] = i
  }
}
