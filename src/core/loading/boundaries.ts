/** Boundaries of the room that is free to a shape: what `spots.ts` sweeps. One question at a time. */
import {
  cell,
  clearCurves,
  count,
  grown,
  keepCircle,
  keepSegment,
  nextOwner,
  numbers,
  STRIDE,
  TOUCH_MM,
  towards,
  wholeCircle,
} from './curves.ts'
import type { Region } from './region.ts'
import { supportOf, type Shape } from './shape.ts'
import { clearWalls, firstWalls, makeWalls, SIDE, sides, WALL, walls, wallSides, type Obstacle } from './walls.ts'

/** Half the length of a line that stands for an endless one, mm. */
const OPEN_LINE_MM = 2e4

/** The same for all spots that the region leaves to the shape. */
const whole = new Float64Array(4)
/** Room that each plane of the region leaves. */
export const planeRooms: number[] = []
/** Those near the cell. */
export let nearWalls = new Int32Array(256)
export let nearCount = 0

/** The room a region leaves to a shape in one direction; false when the shape is too large for it at this angle. */
export function openRegion(region: Region, shape: Shape, dx: number, dy: number, obstacleCount: number): boolean {
  const { capsules, planes } = region
  const { box } = shape
  towards[0] = dx
  towards[1] = dy
  clearWalls(obstacleCount)
  let [minX, minY, maxX, maxY] = [-OPEN_LINE_MM, -OPEN_LINE_MM, OPEN_LINE_MM, OPEN_LINE_MM]
  planeRooms.length = 0
  for (let i = 0; i < planes.length; i += 3) {
    const nx = planes[i]!
    const ny = planes[i + 1]!
    const d = planes[i + 2]! - supportOf(shape, nx, ny)
    planeRooms.push(d)
    if (ny === 0 && nx > 0) maxX = Math.min(maxX, d)
    if (ny === 0 && nx < 0) minX = Math.max(minX, -d)
    if (nx === 0 && ny > 0) maxY = Math.min(maxY, d)
    if (nx === 0 && ny < 0) minY = Math.max(minY, -d)
  }
  for (let i = 0; i < capsules.length; i += 5) {
    const reach = capsules[i + 4]!
    if (reach < shape.radiusMm) return false
    maxX = Math.min(maxX, Math.max(capsules[i]!, capsules[i + 2]!) + reach - box.maxX)
    minX = Math.max(minX, Math.min(capsules[i]!, capsules[i + 2]!) - reach - box.minX)
    maxY = Math.min(maxY, Math.max(capsules[i + 1]!, capsules[i + 3]!) + reach - box.maxY)
    minY = Math.max(minY, Math.min(capsules[i + 1]!, capsules[i + 3]!) - reach - box.minY)
  }
  whole[0] = minX
  whole[1] = minY
  whole[2] = maxX
  whole[3] = maxY
  return minX <= maxX + TOUCH_MM && minY <= maxY + TOUCH_MM
}

/** Begins anew for the spots within `halfMm` of a point in x and in y; false when the region has none there. */
export function openCell(x: number, y: number, halfMm: number): boolean {
  clearCurves()
  nearCount = 0
  const minX = Math.max(whole[0]!, x - halfMm)
  const minY = Math.max(whole[1]!, y - halfMm)
  const maxX = Math.min(whole[2]!, x + halfMm)
  const maxY = Math.min(whole[3]!, y + halfMm)
  cell[0] = minX
  cell[1] = minY
  cell[2] = maxX
  cell[3] = maxY
  cell[4] = (minX + maxX) / 2
  cell[5] = (minY + maxY) / 2
  cell[6] = Math.sqrt((maxX - minX) * (maxX - minX) + (maxY - minY) * (maxY - minY)) / 2 + 4 * TOUCH_MM
  return minX <= maxX + TOUCH_MM && minY <= maxY + TOUCH_MM
}

export function addRegionCurves({ capsules, planes }: Region, shape: Shape): void {
  for (let i = 0, k = 0; i < planes.length; i += 3, k++) {
    const nx = planes[i]!
    const ny = planes[i + 1]!
    const px = nx * planeRooms[k]!
    const py = ny * planeRooms[k]!
    const at = STRIDE * count
    nextOwner()
    numbers[at] = px + ny * OPEN_LINE_MM
    numbers[at + 1] = py - nx * OPEN_LINE_MM
    numbers[at + 2] = px - ny * OPEN_LINE_MM
    numbers[at + 3] = py + nx * OPEN_LINE_MM
    keepSegment()
  }
  for (let i = 0; i < capsules.length; i += 5) {
    for (const hull of shape.hulls) {
      for (let k = 0; k < hull.length; k += 2) addCapsule(capsules, i, shape, hull, k)
    }
  }
}

/** Where the k-th number pair of a hull meets the edge of a capsule of the region. */
function addCapsule(capsules: readonly number[], i: number, shape: Shape, hull: Float64Array, k: number): void {
  const radius = capsules[i + 4]! - shape.radiusMm
  const ax = capsules[i]! - hull[k]!
  const ay = capsules[i + 1]! - hull[k + 1]!
  const bx = capsules[i + 2]! - hull[k]!
  const by = capsules[i + 3]! - hull[k + 1]!
  const px = cell[4]! - ax
  const py = cell[5]! - ay
  const square = px * px + py * py
  const [most, least] = [radius + cell[6]!, Math.max(0, radius - cell[6]!)]
  if (square <= most * most && square >= least * least) {
    const own = wholeCircle(radius)
    numbers[own] = ax
    numbers[own + 1] = ay
    keepCircle()
  }
  if (ax === bx && ay === by) return
  let at = wholeCircle(radius)
  numbers[at] = bx
  numbers[at + 1] = by
  keepCircle()
  const perMm = radius / Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay))
  for (let sense = -1; sense <= 1; sense += 2) {
    const sx = -sense * (by - ay) * perMm
    const sy = sense * (bx - ax) * perMm
    nextOwner()
    at = STRIDE * count
    numbers[at] = ax + sx
    numbers[at + 1] = ay + sy
    numbers[at + 2] = bx + sx
    numbers[at + 3] = by + sy
    keepSegment()
  }
}

/** Curves and walls of the obstacles that come near the cell. */
export function addObstacleCurves(obstacles: readonly Obstacle[], shape: Shape): void {
  const { box } = shape
  for (let k = 0; k < obstacles.length; k++) {
    const obstacle = obstacles[k]!
    const { xMm, yMm, gapMm } = obstacle
    const other = obstacle.shape.box
    if (xMm + other.minX - box.maxX - gapMm > cell[2]! || xMm + other.maxX - box.minX + gapMm < cell[0]!) continue
    if (yMm + other.minY - box.maxY - gapMm > cell[3]! || yMm + other.maxY - box.minY + gapMm < cell[1]!) continue
    if (firstWalls[k] === 0) makeWalls(obstacle, shape, k)
    const last = firstWalls[k]! - 1 + obstacle.shape.hulls.length * shape.hulls.length
    for (let wall = firstWalls[k]! - 1; wall < last; wall++) addWallCurves(wall)
  }
}

function addWallCurves(wall: number): void {
  const w = WALL * wall
  if (walls[w]! > cell[2]! || walls[w + 1]! > cell[3]! || walls[w + 2]! < cell[0]! || walls[w + 3]! < cell[1]!) return
  const clearMm = walls[w + 4]!
  const from = wallSides[2 * wall]!
  const sideCount = wallSides[2 * wall + 1]!
  if (nearCount === nearWalls.length) nearWalls = grown(nearWalls, new Int32Array(2 * nearCount))
  nearWalls[nearCount++] = wall
  if (sideCount === 1) {
    const at = wholeCircle(clearMm)
    numbers[at] = sides[SIDE * from]!
    numbers[at + 1] = sides[SIDE * from + 1]!
    keepCircle()
    return
  }
  nextOwner()
  const reach = cell[6]!
  const mostSquare = (clearMm + reach) * (clearMm + reach)
  const leastSquare = clearMm > reach ? (clearMm - reach) * (clearMm - reach) : 0
  let before = SIDE * (from + sideCount - 1)
  for (let side = from; side < from + sideCount; side++) {
    const s = SIDE * side
    const next = side + 1 < from + sideCount ? s + SIDE : SIDE * from
    const nx = sides[s + 2]!
    const ny = sides[s + 3]!
    const px = cell[4]! - sides[s]!
    const py = cell[5]! - sides[s + 1]!
    const square = px * px + py * py
    if (square <= mostSquare && square >= leastSquare) {
      const at = STRIDE * count
      numbers[at] = sides[s]!
      numbers[at + 1] = sides[s + 1]!
      numbers[at + 2] = clearMm
      numbers[at + 3] = sides[before + 2]!
      numbers[at + 4] = sides[before + 3]!
      numbers[at + 5] = nx
      numbers[at + 6] = ny
      keepCircle()
    }
    const past = nx * px + ny * py - clearMm
    if (past <= reach && past >= -reach) {
      const at = STRIDE * count
      numbers[at] = sides[s]! + nx * clearMm
      numbers[at + 1] = sides[s + 1]! + ny * clearMm
      numbers[at + 2] = sides[next]! + nx * clearMm
      numbers[at + 3] = sides[next + 1]! + ny * clearMm
      keepSegment()
    }
    before = s
  }
}
