import type { Sizes } from './problem.ts'

/**
 * One plate with what lies on it, and its free room as all the largest free rectangles (they overlap one another): a
 * rectangle has room exactly if it fits in one of them. Arrays are reused; `count` and `freeCount` say how much counts.
 */
export type Plate = {
  /** Indices of rectangles, in the order in which they were laid. */
  readonly ids: Int32Array
  /** x, y, length, width as they lie, four numbers each. */
  readonly laid: Float64Array
  count: number
  area: number
  /** Left, bottom, right, top of each free rectangle. */
  free: Float64Array
  freeCount: number
}

/** How good a spot is, less is better; ties by the second figure. */
export type Rule = 'short-side' | 'long-side' | 'area' | 'low' | 'corner'
export const rules: readonly Rule[] = ['short-side', 'long-side', 'area', 'low', 'corner']

/** The best spot that `findSpot` found, written over by each call: the search asks millions of times. */
export type Spot = { score: number; tie: number; x: number; y: number; length: number; width: number }

export function newPlate({ lengths, plateLength, plateWidth }: Sizes): Plate {
  const most = lengths.length
  const plate = {
    ids: new Int32Array(most),
    laid: new Float64Array(4 * most),
    count: 0,
    area: 0,
    free: new Float64Array(4 * 64),
    freeCount: 0,
  }
  clearPlate(plate, plateLength, plateWidth)
  return plate
}

export function clearPlate(plate: Plate, plateLength: number, plateWidth: number): void {
  plate.count = 0
  plate.area = 0
  plate.freeCount = 1
  plate.free[0] = 0
  plate.free[1] = 0
  plate.free[2] = plateLength
  plate.free[3] = plateWidth
}

/** Looks for a spot that beats the one in `best`; true when it did, and `best` is then that spot. */
export function findSpot(
  plate: Plate,
  length: number,
  width: number,
  mayTurn: boolean,
  rule: Rule,
  best: Spot,
): boolean {
  const { free, freeCount } = plate
  let isFound = false
  for (let k = 0; k < 4 * freeCount; k += 4) {
    const x = free[k]!
    const y = free[k + 1]!
    const roomX = free[k + 2]! - x
    const roomY = free[k + 3]! - y
    if (length <= roomX && width <= roomY && tryCorner(x, y, length, width, roomX, roomY, rule, best)) isFound = true
    if (!mayTurn || length === width) continue
    if (width <= roomX && length <= roomY && tryCorner(x, y, width, length, roomX, roomY, rule, best)) isFound = true
  }
  return isFound
}

function tryCorner(
  x: number,
  y: number,
  length: number,
  width: number,
  roomX: number,
  roomY: number,
  rule: Rule,
  best: Spot,
): boolean {
  const spareX = roomX - length
  const spareY = roomY - width
  const shorter = spareX < spareY ? spareX : spareY
  let score: number
  let tie = shorter
  switch (rule) {
    case 'short-side':
      score = shorter
      tie = spareX + spareY - shorter
      break
    case 'long-side':
      score = spareX + spareY - shorter
      break
    case 'area':
      score = roomX * roomY - length * width
      break
    case 'low':
      score = y + width
      tie = x
      break
    case 'corner':
      score = x + y
      break
  }
  if (score > best.score || (score === best.score && tie >= best.tie)) return false
  best.score = score
  best.tie = tie
  best.x = x
  best.y = y
  best.length = length
  best.width = width
  return true
}

export function lay(plate: Plate, id: number, x: number, y: number, length: number, width: number): void {
  const at = 4 * plate.count
  plate.ids[plate.count++] = id
  plate.laid[at] = x
  plate.laid[at + 1] = y
  plate.laid[at + 2] = length
  plate.laid[at + 3] = width
  plate.area += length * width
  carve(plate, x, y, x + length, y + width)
}

let cuts = new Float64Array(4 * 256)

/** Takes a rectangle out of the free room. */
function carve(plate: Plate, left: number, bottom: number, right: number, top: number): void {
  let { free } = plate
  let kept = 0
  let made = 0
  for (let k = 0; k < 4 * plate.freeCount; k += 4) {
    const x = free[k]!
    const y = free[k + 1]!
    const x2 = free[k + 2]!
    const y2 = free[k + 3]!
    if (left >= x2 || right <= x || bottom >= y2 || top <= y) {
      free[kept] = x
      free[kept + 1] = y
      free[kept + 2] = x2
      free[kept + 3] = y2
      kept += 4
      continue
    }
    if (made + 16 > cuts.length) cuts = doubled(cuts)
    if (left > x) made = cut(made, x, y, left, y2)
    if (right < x2) made = cut(made, right, y, x2, y2)
    if (bottom > y) made = cut(made, x, y, x2, bottom)
    if (top < y2) made = cut(made, x, top, x2, y2)
  }
  while (kept + made > free.length) free = doubled(free)
  plate.free = free
  // What was kept was as large as can be before, so it lies in none of the cuts; cuts may lie in it, or in one another.
  const keptBefore = kept
  for (let i = 0; i < made; i += 4) {
    if (isCovered(free, keptBefore, cuts, i, -1) || isCovered(cuts, made, cuts, i, i)) continue
    free[kept] = cuts[i]!
    free[kept + 1] = cuts[i + 1]!
    free[kept + 2] = cuts[i + 2]!
    free[kept + 3] = cuts[i + 3]!
    kept += 4
  }
  plate.freeCount = kept / 4
}

function cut(at: number, x: number, y: number, x2: number, y2: number): number {
  cuts[at] = x
  cuts[at + 1] = y
  cuts[at + 2] = x2
  cuts[at + 3] = y2
  return at + 4
}

/** True when one of the others holds the rectangle at `at`; of two equal cuts the first stays. */
function isCovered(others: Float64Array, end: number, own: Float64Array, at: number, self: number): boolean {
  const x = own[at]!
  const y = own[at + 1]!
  const x2 = own[at + 2]!
  const y2 = own[at + 3]!
  for (let k = 0; k < end; k += 4) {
    if (k === self || others[k]! > x || others[k + 1]! > y || others[k + 2]! < x2 || others[k + 3]! < y2) continue
    const isEqual = others[k] === x && others[k + 1] === y && others[k + 2] === x2 && others[k + 3] === y2
    if (self < 0 || !isEqual || k < self) return true
  }
  return false
}

function doubled(array: Float64Array): Float64Array<ArrayBuffer> {
  const grown = new Float64Array(2 * array.length)
  grown.set(array)
  return grown
}
