import { oncePer } from './once.ts'
import { hullsAt, type FlatHull, type Outline } from './outline.ts'

/** An outline at one angle. */
export type Shape = {
  readonly outline: Outline
  readonly angleIndex: number
  readonly hulls: readonly FlatHull[]
  readonly radiusMm: number
  readonly reachMm: number
  /** Box of the grown hulls around the reference point. */
  readonly box: Box
  /** The hulls with their normals, once asked for. */
  solids: readonly Solid[] | undefined
}

export type Box = { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number }

/** A hull with its outward normals: side k runs from corner k to corner k + 1, outside is normal.p > offset. */
export type Solid = {
  readonly corners: FlatHull
  readonly normals: Float64Array
  readonly offsets: Float64Array
  /** Where its lowest corner stands among the numbers (the leftmost of several), and its highest (the rightmost). */
  readonly lowest: number
  readonly highest: number
}

const shapesOf = oncePer<Outline, Map<number, Shape>>(() => new Map())

/** The outline at a step of the angle table; made once. */
export function shapeAt(outline: Outline, angleIndex: number): Shape {
  const shapes = shapesOf(outline)
  const step = outline.symmetry === 'every' ? 0 : angleIndex
  let shape = shapes.get(step)
  if (shape === undefined) {
    const hulls = hullsAt(outline, step)
    const { radiusMm, reachMm } = outline
    const box = boxOf(hulls, radiusMm)
    shape = {
      outline,
      angleIndex: step,
      hulls,
      radiusMm,
      reachMm,
      box,
      solids: undefined,
    }
    shapes.set(step, shape)
  }
  return shape
}

/** The hulls with their outward normals; made once. */
export function solidsOf(shape: Shape): readonly Solid[] {
  shape.solids ??= shape.hulls.map(solidFrom)
  return shape.solids
}

/** Distance from a point to a hull; inside it minus the distance to its nearest side. Inexact from `enoughMm` on. */
export function distanceTo(hull: Solid, x: number, y: number, enoughMm: number): number {
  const { corners, normals, offsets } = hull
  if (corners.length === 2) {
    const px = x - corners[0]!
    const py = y - corners[1]!
    return Math.sqrt(px * px + py * py)
  }
  let outside = -Infinity
  for (let i = 0, k = 0; i < corners.length; i += 2, k++) {
    const past = normals[i]! * x + normals[i + 1]! * y - offsets[k]!
    if (past > outside) outside = past
    if (past >= enoughMm) return past
  }
  if (outside <= 0 && corners.length > 4) return outside
  return Math.sqrt(squareToSides(corners, 0, corners.length, 2, x, y))
}

/** The same from above, and quicker: beyond the end of the side that faces the point most, to that end. */
export function distanceAtMost({ corners, normals, offsets }: Solid, x: number, y: number, enoughMm: number): number {
  let outside = -Infinity
  let facing = 0
  for (let i = 0, k = 0; i < corners.length; i += 2, k++) {
    const past = normals[i]! * x + normals[i + 1]! * y - offsets[k]!
    if (past <= outside) continue
    outside = past
    facing = i
    if (past >= enoughMm) return past
  }
  if (outside <= 0 && corners.length > 4) return outside
  const j = facing + 2 < corners.length ? facing + 2 : 0
  const nx = normals[facing]!
  const ny = normals[facing + 1]!
  // Along the side, which the normal turned by a quarter turn points: how far short of its start or past its end.
  const short = ny * (x - corners[facing]!) - nx * (y - corners[facing + 1]!)
  const past = nx * (y - corners[j]!) - ny * (x - corners[j]!)
  const beyond = Math.max(0, short, past)
  return beyond === 0 ? outside : Math.sqrt(outside * outside + beyond * beyond)
}

/**
 * Squared distance, mm2, from a point to the nearest side of a ring of corners, which lie `stride` numbers apart from
 * index `first` to before `end`: x, then y.
 */
export function squareToSides(
  numbers: FlatHull,
  first: number,
  end: number,
  stride: number,
  x: number,
  y: number,
): number {
  let least = Infinity
  for (let i = first; i < end; i += stride) {
    const j = i + stride < end ? i + stride : first
    const sideX = numbers[j]! - numbers[i]!
    const sideY = numbers[j + 1]! - numbers[i + 1]!
    const px = x - numbers[i]!
    const py = y - numbers[i + 1]!
    const along = Math.max(0, Math.min(1, (px * sideX + py * sideY) / (sideX * sideX + sideY * sideY)))
    const qx = px - along * sideX
    const qy = py - along * sideY
    const square = qx * qx + qy * qy
    if (square < least) least = square
  }
  return least
}

/** Highest point of a shape in a direction, from its reference point. */
export function supportOf(shape: Shape, dx: number, dy: number): number {
  let highest = -Infinity
  for (const hull of shape.hulls) {
    for (let i = 0; i < hull.length; i += 2) {
      const along = dx * hull[i]! + dy * hull[i + 1]!
      if (along > highest) highest = along
    }
  }
  return highest + shape.radiusMm
}

function solidFrom(corners: FlatHull): Solid {
  const count = corners.length / 2
  const normals = new Float64Array(corners.length)
  const offsets = new Float64Array(count)
  for (let k = 0; count > 1 && k < count; k++) {
    const i = 2 * k
    const j = i + 2 < corners.length ? i + 2 : 0
    const [dx, dy] = [corners[j]! - corners[i]!, corners[j + 1]! - corners[i + 1]!]
    const length = Math.sqrt(dx * dx + dy * dy)
    normals[i] = dy / length
    normals[i + 1] = -dx / length
    offsets[k] = normals[i]! * corners[i]! + normals[i + 1]! * corners[i + 1]!
  }
  return { corners, normals, offsets, ...extremesOf(corners) }
}

function extremesOf(corners: FlatHull): { lowest: number; highest: number } {
  let [lowest, highest] = [0, 0]
  for (let i = 2; i < corners.length; i += 2) {
    const [x, y] = [corners[i]!, corners[i + 1]!]
    if (y < corners[lowest + 1]! || (y === corners[lowest + 1] && x < corners[lowest]!)) lowest = i
    if (y > corners[highest + 1]! || (y === corners[highest + 1] && x > corners[highest]!)) highest = i
  }
  return { lowest, highest }
}

function boxOf(hulls: readonly FlatHull[], radiusMm: number): Box {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const hull of hulls) {
    for (let i = 0; i < hull.length; i += 2) {
      minX = Math.min(minX, hull[i]!)
      maxX = Math.max(maxX, hull[i]!)
      minY = Math.min(minY, hull[i + 1]!)
      maxY = Math.max(maxY, hull[i + 1]!)
    }
  }
  return { minX: minX - radiusMm, minY: minY - radiusMm, maxX: maxX + radiusMm, maxY: maxY + radiusMm }
}
