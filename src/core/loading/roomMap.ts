/** A coarse raster of how much room there is about each point of a shelf: where a shape cannot stand is seen at once. */
import { cosOf, sinOf } from './angles.ts'
import { oncePer } from './once.ts'
import { roomInside, type Region } from './region.ts'
import { distanceAtMost, distanceTo, solidsOf, type Shape } from './shape.ts'
import type { Obstacle } from './walls.ts'

/** Distance between neighbouring points of the raster, mm; the best of 8 to 16 by trial. */
export const GRID_MM = 14
/** From any point of a cell to its middle at most. */
const HALF_DIAGONAL_MM = GRID_MM / Math.SQRT2
/** Room beyond this is not told apart, mm. */
const MOST_ROOM_MM = 36

/** Points of the raster, row by row. */
export type Grid = {
  readonly minX: number
  readonly minY: number
  readonly columns: number
  readonly rows: number
}

/** Room at each point: to the edge of the surface and to obstacles less their gaps, at most `MOST_ROOM_MM`. */
export type RoomMap = Float32Array

/** A raster over a box about the origin. */
export function gridOver(lengthMm: number, widthMm: number): Grid {
  const columns = Math.ceil(lengthMm / GRID_MM) + 1
  const rows = Math.ceil(widthMm / GRID_MM) + 1
  return { minX: (-(columns - 1) * GRID_MM) / 2, minY: (-(rows - 1) * GRID_MM) / 2, columns, rows }
}

/** The room of an empty surface. */
export function emptyRoomMap(grid: Grid, surface: Region): RoomMap {
  const room = new Float32Array(grid.columns * grid.rows)
  const origin = new Float64Array(2)
  for (let row = 0, at = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++, at++) {
      const x = grid.minX + column * GRID_MM
      const y = grid.minY + row * GRID_MM
      room[at] = Math.min(MOST_ROOM_MM, roomInside(surface, origin, 0, x, y))
    }
  }
  return room
}

/** Takes the room that one more obstacle takes. */
export function takeRoom(grid: Grid, room: RoomMap, { shape, xMm, yMm, gapMm }: Obstacle): void {
  const growthMm = shape.radiusMm + gapMm
  const { box } = shape
  const aroundMm = MOST_ROOM_MM + gapMm
  const firstColumn = Math.max(0, Math.ceil((xMm + box.minX - aroundMm - grid.minX) / GRID_MM))
  const lastColumn = Math.min(grid.columns - 1, Math.floor((xMm + box.maxX + aroundMm - grid.minX) / GRID_MM))
  const firstRow = Math.max(0, Math.ceil((yMm + box.minY - aroundMm - grid.minY) / GRID_MM))
  const lastRow = Math.min(grid.rows - 1, Math.floor((yMm + box.maxY + aroundMm - grid.minY) / GRID_MM))
  for (const solid of solidsOf(shape)) {
    const { corners } = solid
    for (let row = firstRow; row <= lastRow; row++) {
      const y = grid.minY + row * GRID_MM - yMm
      if (corners.length === 2) {
        const fromX = grid.minX - xMm - corners[0]!
        takeRoomInRow(room, row * grid.columns, firstColumn, lastColumn, fromX, y - corners[1]!, growthMm)
        continue
      }
      for (let column = firstColumn; column <= lastColumn; column++) {
        const at = row * grid.columns + column
        const left = room[at]!
        if (left < 0) continue
        const enoughMm = left + growthMm
        const mm = distanceAtMost(solid, grid.minX + column * GRID_MM - xMm, y, enoughMm)
        if (mm < enoughMm) room[at] = mm - growthMm
      }
    }
  }
}

/** One row about a circle, as most ware is: without calls, and without the root where it is not near. */
function takeRoomInRow(
  room: RoomMap,
  rowAt: number,
  firstColumn: number,
  lastColumn: number,
  fromX: number,
  dy: number,
  growthMm: number,
): void {
  const mostMm = MOST_ROOM_MM + growthMm
  const squareY = dy * dy
  const acrossMm = Math.sqrt(Math.max(0, mostMm * mostMm - squareY))
  const first = Math.max(firstColumn, Math.ceil((-acrossMm - fromX) / GRID_MM))
  const last = Math.min(lastColumn, Math.floor((acrossMm - fromX) / GRID_MM))
  for (let column = first; column <= last; column++) {
    const left = room[rowAt + column]!
    if (left < 0) continue
    const dx = fromX + column * GRID_MM
    const square = dx * dx + squareY
    const enoughMm = left + growthMm
    if (square < enoughMm * enoughMm) room[rowAt + column] = Math.sqrt(square) - growthMm
  }
}

/** Points of the raster on the surface, those lowest in a direction first. */
export function pointsUpwards(grid: Grid, empty: RoomMap, angleIndex: number): Int32Array {
  const [dx, dy] = [cosOf(angleIndex), sinOf(angleIndex)]
  const points: number[] = []
  for (let at = 0; at < empty.length; at++) if (empty[at]! > -HALF_DIAGONAL_MM) points.push(at)
  const heights = points.map((at) => dx * (at % grid.columns) + dy * Math.floor(at / grid.columns))
  const order = points.map((_, i) => i).sort((a, b) => heights[a]! - heights[b]! || a - b)
  return Int32Array.from(order, (i) => points[i]!)
}

/** Room that a point with ware of common size about it has at least, mm. */
const OPEN_MM = 27

let scratch = new Int32Array(4_096)

/** Those of the points that have `OPEN_MM` of room, in the same order. */
export function openPoints(room: RoomMap, points: Int32Array): Int32Array {
  if (scratch.length < points.length) scratch = new Int32Array(2 * points.length)
  let kept = 0
  for (let i = 0; i < points.length; i++) if (room[points[i]!]! >= OPEN_MM) scratch[kept++] = points[i]!
  return scratch.slice(0, kept)
}

/**
 * Discs inside a shape, centred on whole steps of the raster from the shape's reference point: wherever the shape stands
 * each needs its room. The middle one comes first.
 */
export type Probes = {
  /** From the reference point's place in the raster to the disc's. */
  readonly offsets: Int32Array
  readonly roomsMm: Float64Array
  /** The reference point needs `OPEN_MM` itself, so that only open points come into question. */
  readonly isMiddleOpen: boolean
}

const probesByColumns = oncePer<Shape, Map<number, Probes>>(() => new Map())

/** Probes near the shape's corners and in its middle; made once for one width of raster. */
export function probesOf(shape: Shape, columns: number): Probes {
  const known = probesByColumns(shape)
  let probes = known.get(columns)
  if (probes === undefined) {
    probes = probesFrom(shape, columns)
    known.set(columns, probes)
  }
  return probes
}

/** True when the shape may stand somewhere near the point; false only when it certainly does not. */
export function mayStandNear(room: RoomMap, { offsets, roomsMm }: Probes, at: number): boolean {
  for (let k = 0; k < offsets.length; k++) {
    const seen = at + offsets[k]!
    if (seen < 0 || seen >= room.length || room[seen]! < roomsMm[k]!) return false
  }
  return true
}

function probesFrom(shape: Shape, columns: number): Probes {
  const offsets: number[] = []
  const roomsMm: number[] = []
  const { hulls, radiusMm } = shape
  solidsOf(shape).forEach((solid, i) => {
    const hull = hulls[i]!
    const add = (x: number, y: number): void => {
      const [column, row] = [Math.round(x / GRID_MM), Math.round(y / GRID_MM)]
      const depth = radiusMm - distanceTo(solid, column * GRID_MM, row * GRID_MM, Infinity)
      const needMm = Math.min(depth - HALF_DIAGONAL_MM, MOST_ROOM_MM)
      if (needMm <= 0) return
      offsets.push(row * columns + column)
      roomsMm.push(needMm)
    }
    const [middleX, middleY] = middleOf(hull)
    add(middleX, middleY)
    if (hull.length === 2) addRing(middleX, middleY, radiusMm, add)
    for (let k = 0; k < hull.length && hull.length > 2; k += 2) {
      const [toX, toY] = [hull[k]! - middleX, hull[k + 1]! - middleY]
      const away = Math.sqrt(toX * toX + toY * toY)
      const pulled = Math.max(0, away + radiusMm - Math.max(22, radiusMm)) / away
      add(middleX + toX * Math.min(1, pulled), middleY + toY * Math.min(1, pulled))
    }
  })
  return {
    offsets: Int32Array.from(offsets),
    roomsMm: Float64Array.from(roomsMm),
    isMiddleOpen: offsets[0] === 0 && roomsMm[0]! >= OPEN_MM,
  }
}

function addRing(x: number, y: number, radiusMm: number, add: (x: number, y: number) => void): void {
  const ringMm = Math.max(radiusMm / 2, radiusMm - 26)
  for (let k = 0; k < 8; k++) add(x + ringMm * cosOf(180 * k), y + ringMm * sinOf(180 * k))
}

function middleOf(hull: Float64Array): [number, number] {
  let [x, y] = [0, 0]
  for (let k = 0; k < hull.length; k += 2) {
    x += hull[k]!
    y += hull[k + 1]!
  }
  return [(2 * x) / hull.length, (2 * y) / hull.length]
}
