/** The curves that cross one cell of a shelf: what `spots.ts` sweeps. One cell at a time. */

/** Slack of the packer's own tests, mm; a hundredth of what the checker forgives. */
export const TOUCH_MM = 1e-8

// Everything here lies in flat arrays that are filled anew for each question, and no function takes coordinates: a number
// handed on or kept by itself costs a heap object each time.

/** Unit vector of the direction that is to stay low. */
export const towards = Float64Array.of(0, 1)
/** The spots in question: least x and y, most x and y; then their middle, and from there to a corner, a touch more. */
export const cell = new Float64Array(7)
/** Curves of a cell: circles as centre, radius and the two normals between which they count; segments as two ends. */
export const STRIDE = 8
let capacity = 256
export let numbers = new Float64Array(capacity * STRIDE)
export let isSegment = new Uint8Array(capacity)
export let owners = new Int32Array(capacity)
/** Least and most height of a curve in the direction that is to stay low. */
export let lows = new Float64Array(capacity)
export let highs = new Float64Array(capacity)
export let boxes = new Float64Array(capacity * 4)
export let order = new Int32Array(capacity)
export let sweep = new Int32Array(capacity)
export let count = 0
let owner = 0

/** Forgets the curves of the last cell. */
export function clearCurves(): void {
  count = 0
  owner = 0
}

/** What is kept from now on belongs to another body: curves of one body do not bound spots by meeting one another. */
export function nextOwner(): void {
  owner++
}

/** Readies the next slot for a circle that counts all around. */
export function wholeCircle(radius: number): number {
  const at = STRIDE * count
  nextOwner()
  numbers[at + 2] = radius
  numbers[at + 3] = 0
  numbers[at + 4] = 0
  numbers[at + 5] = 0
  numbers[at + 6] = 0
  return at
}

/** Keeps the circle in the next slot unless it misses the cell. */
export function keepCircle(): void {
  const at = STRIDE * count
  const cx = numbers[at]!
  const cy = numbers[at + 1]!
  const radius = numbers[at + 2]!
  const left = cell[0]! - cx
  const right = cx - cell[2]!
  const below = cell[1]! - cy
  const above = cy - cell[3]!
  const outX = left > 0 ? left : right > 0 ? right : 0
  const outY = below > 0 ? below : above > 0 ? above : 0
  const most = radius + 2 * TOUCH_MM
  if (outX * outX + outY * outY > most * most) return
  const farX = left > right ? -right : -left
  const farY = below > above ? -above : -below
  const least = radius - 2 * TOUCH_MM
  if (least > 0 && farX * farX + farY * farY < least * least) return
  const box = 4 * count
  boxes[box] = cx - radius - TOUCH_MM
  boxes[box + 1] = cy - radius - TOUCH_MM
  boxes[box + 2] = cx + radius + TOUCH_MM
  boxes[box + 3] = cy + radius + TOUCH_MM
  const middle = towards[0]! * cx + towards[1]! * cy
  lows[count] = middle - radius
  highs[count] = middle + radius
  isSegment[count] = 0
  owners[count] = owner
  if (++count === capacity) growCurves()
}

/** Keeps the segment in the next slot unless its box misses the cell. */
export function keepSegment(): void {
  const at = STRIDE * count
  const ax = numbers[at]!
  const ay = numbers[at + 1]!
  const bx = numbers[at + 2]!
  const by = numbers[at + 3]!
  const minX = ax < bx ? ax : bx
  const maxX = ax < bx ? bx : ax
  const minY = ay < by ? ay : by
  const maxY = ay < by ? by : ay
  if (minX > cell[2]! + TOUCH_MM || maxX < cell[0]! - TOUCH_MM) return
  if (minY > cell[3]! + TOUCH_MM || maxY < cell[1]! - TOUCH_MM) return
  const box = 4 * count
  boxes[box] = minX - TOUCH_MM
  boxes[box + 1] = minY - TOUCH_MM
  boxes[box + 2] = maxX + TOUCH_MM
  boxes[box + 3] = maxY + TOUCH_MM
  const first = towards[0]! * ax + towards[1]! * ay
  const second = towards[0]! * bx + towards[1]! * by
  lows[count] = first < second ? first : second
  highs[count] = first < second ? second : first
  isSegment[count] = 1
  owners[count] = owner
  if (++count === capacity) growCurves()
}

function growCurves(): void {
  capacity *= 2
  numbers = grown(numbers, new Float64Array(capacity * STRIDE))
  isSegment = grown(isSegment, new Uint8Array(capacity))
  owners = grown(owners, new Int32Array(capacity))
  lows = grown(lows, new Float64Array(capacity))
  highs = grown(highs, new Float64Array(capacity))
  boxes = grown(boxes, new Float64Array(capacity * 4))
  order = new Int32Array(capacity)
  sweep = new Int32Array(capacity)
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

/** A larger array with what the old one held. */
export function grown<T extends Float64Array | Uint8Array | Int32Array>(old: T, next: T): T {
  next.set(old)
  return next
}
