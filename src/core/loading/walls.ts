/**
 * Where a moving piece would overlap what stands already: convex hulls of places for its reference point, and how far
 * to keep from each. Made anew for each question: kept ones took more memory than time.
 */
import { grown, TOUCH_MM } from './curves.ts'
import { solidsOf, squareToSides, type Shape, type Solid } from './shape.ts'

/** Something that stands on a shelf already, with the gap it wants. */
export type Obstacle = { readonly shape: Shape; readonly xMm: number; readonly yMm: number; readonly gapMm: number }

/** Numbers of one side: its first corner, its outward normal, and the normal's product with the corner. */
export const SIDE = 5

/** The sides of all walls, counter-clockwise; a wall with a single one is a point. */
export let sides = new Float64Array(4_096)
let sideCount = 0

/** Grown obstacles that a spot must not lie in: their box (four numbers), then how far to keep from the hull. */
export const WALL = 5
export let walls = new Float64Array(256 * WALL)
/** First side and number of sides of each wall. */
export let wallSides = new Int32Array(256 * 2)
let wallCount = 0
/** First wall of each obstacle, plus one; 0 where it has not come near a cell yet. */
export let firstWalls = new Int32Array(64)

/** Forgets the walls of the last question. */
export function clearWalls(obstacleCount: number): void {
  sideCount = 0
  wallCount = 0
  if (firstWalls.length < obstacleCount) firstWalls = new Int32Array(2 * obstacleCount)
  else firstWalls.fill(0, 0, obstacleCount)
}

/** The walls of one obstacle, its hulls one after another, each with those of the shape. */
export function makeWalls({ shape: fixed, xMm, yMm, gapMm }: Obstacle, shape: Shape, obstacle: number): void {
  firstWalls[obstacle] = wallCount + 1
  const clearMm = shape.radiusMm + fixed.radiusMm + gapMm
  for (const own of solidsOf(fixed)) {
    for (const moving of solidsOf(shape)) {
      const from = sideCount
      makeWall(own, xMm, yMm, moving)
      if (wallCount === wallSides.length / 2) growWalls()
      let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
      for (let side = from; side < sideCount; side++) {
        const x = sides[SIDE * side]!
        const y = sides[SIDE * side + 1]!
        if (x < minX) minX = x
        if (x > maxX) maxX = x
        if (y < minY) minY = y
        if (y > maxY) maxY = y
      }
      const at = WALL * wallCount
      walls[at] = minX - clearMm
      walls[at + 1] = minY - clearMm
      walls[at + 2] = maxX + clearMm
      walls[at + 3] = maxY + clearMm
      walls[at + 4] = clearMm
      wallSides[2 * wallCount] = from
      wallSides[2 * wallCount + 1] = sideCount - from
      wallCount++
    }
  }
}

/** True when the point lies nearer to the wall than it must keep, or in it. */
export function isInWall(wall: number, x: number, y: number): boolean {
  const w = WALL * wall
  if (x <= walls[w]! + TOUCH_MM || y <= walls[w + 1]! + TOUCH_MM) return false
  if (x >= walls[w + 2]! - TOUCH_MM || y >= walls[w + 3]! - TOUCH_MM) return false
  const reach = walls[w + 4]! - TOUCH_MM
  const first = SIDE * wallSides[2 * wall]!
  const sideCount = wallSides[2 * wall + 1]!
  const end = first + SIDE * sideCount
  if (sideCount === 1) {
    const px = x - sides[first]!
    const py = y - sides[first + 1]!
    return px * px + py * py < reach * reach
  }
  let outside = -Infinity
  for (let s = first; s < end; s += SIDE) {
    const past = sides[s + 2]! * x + sides[s + 3]! * y - sides[s + 4]!
    if (past >= reach) return false
    if (past > outside) outside = past
  }
  if (outside <= 0 && sideCount > 2) return reach > outside
  return squareToSides(sides, first, end, SIDE, x, y) < reach * reach
}

/**
 * The Minkowski sum of a fixed hull at its place and the mirrored moving one, by merging their sides in order of
 * direction; of a point and a hull, that hull moved.
 */
function makeWall(fixed: Solid, xMm: number, yMm: number, moving: Solid): void {
  const fixedCount = fixed.corners.length / 2
  const movingCount = moving.corners.length / 2
  if (SIDE * (sideCount + fixedCount + movingCount) > sides.length) growSides()
  if (fixedCount === 1) moved(moving, -1, xMm + fixed.corners[0]!, yMm + fixed.corners[1]!)
  else if (movingCount === 1) moved(fixed, 1, xMm - moving.corners[0]!, yMm - moving.corners[1]!)
  else merged(fixed, xMm, yMm, moving)
}

/** @param sense 1, or -1 for the hull turned by half a turn */
function moved({ corners, normals }: Solid, sense: 1 | -1, xMm: number, yMm: number): void {
  for (let i = 0; i < corners.length; i += 2) {
    addSide(sense * corners[i]! + xMm, sense * corners[i + 1]! + yMm, sense * normals[i]!, sense * normals[i + 1]!)
  }
}

function merged(fixed: Solid, xMm: number, yMm: number, moving: Solid): void {
  const [a, b] = [fixed.corners, moving.corners]
  const [sizeA, sizeB] = [a.length, b.length]
  let [i, j] = [fixed.lowest, moving.highest]
  let [leftA, leftB] = [sizeA / 2, sizeB / 2]
  let x = a[i]! - b[j]! + xMm
  let y = a[i + 1]! - b[j + 1]! + yMm
  while (leftA > 0 || leftB > 0) {
    const nextI = i + 2 < sizeA ? i + 2 : 0
    const nextJ = j + 2 < sizeB ? j + 2 : 0
    const aX = a[nextI]! - a[i]!
    const aY = a[nextI + 1]! - a[i + 1]!
    const bX = b[j]! - b[nextJ]!
    const bY = b[j + 1]! - b[nextJ + 1]!
    const cross = leftA === 0 ? -1 : leftB === 0 ? 1 : aX * bY - aY * bX
    if (cross >= 0) addSide(x, y, fixed.normals[i]!, fixed.normals[i + 1]!)
    else addSide(x, y, -moving.normals[j]!, -moving.normals[j + 1]!)
    if (cross >= 0) {
      x += aX
      y += aY
      i = nextI
      leftA--
    }
    if (cross <= 0) {
      x += bX
      y += bY
      j = nextJ
      leftB--
    }
  }
}

function addSide(x: number, y: number, nx: number, ny: number): void {
  const at = SIDE * sideCount++
  sides[at] = x
  sides[at + 1] = y
  sides[at + 2] = nx
  sides[at + 3] = ny
  sides[at + 4] = nx * x + ny * y
}

function growSides(): void {
  sides = grown(sides, new Float64Array(2 * sides.length))
}

function growWalls(): void {
  const size = wallSides.length
  walls = grown(walls, new Float64Array(size * WALL))
  wallSides = grown(wallSides, new Int32Array(size * 2))
}
