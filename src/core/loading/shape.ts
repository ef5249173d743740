import { noFitHull } from './noFit.ts'
import { hullsAt, type FlatHull, type Outline } from './outline.ts'

/** An outline at one angle, with the no-fit hulls against others as they are asked for. */
export type Shape = {
  readonly id: number
  readonly outline: Outline
  readonly angleIndex: number
  readonly hulls: readonly FlatHull[]
  readonly radiusMm: number
  readonly reachMm: number
  /** Box of the grown hulls around the reference point. */
  readonly box: Box
  readonly noFits: Map<number, readonly NoFit[]>
  /** The hulls themselves with their normals, once asked for. */
  solids: readonly NoFit[] | undefined
  /** The hulls turned by half a turn, likewise. */
  mirrored: readonly NoFit[] | undefined
}

type Box = { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number }

/** A no-fit hull with its outward normals: side k runs from corner k to corner k + 1, outside is normal.p > offset. */
export type NoFit = {
  readonly corners: FlatHull
  readonly normals: Float64Array
  readonly offsets: Float64Array
  readonly box: Box
}

const shapesOf = new WeakMap<Outline, Map<number, Shape>>()
let shapeCount = 0

/** The outline at a step of the angle table; made once. */
export function shapeAt(outline: Outline, angleIndex: number): Shape {
  let shapes = shapesOf.get(outline)
  if (shapes === undefined) {
    shapes = new Map()
    shapesOf.set(outline, shapes)
  }
  const step = outline.symmetry === 'every' ? 0 : angleIndex
  let shape = shapes.get(step)
  if (shape === undefined) {
    const hulls = hullsAt(outline, step)
    const { radiusMm, reachMm } = outline
    const box = boxOf(hulls, radiusMm)
    shape = {
      id: shapeCount++,
      outline,
      angleIndex: step,
      hulls,
      radiusMm,
      reachMm,
      box,
      noFits: new Map(),
      solids: undefined,
      mirrored: undefined,
    }
    shapes.set(step, shape)
  }
  return shape
}

/** No-fit hulls of a moving shape about a fixed one at the origin, before growing by radii and gap. */
export function noFitsOf(fixed: Shape, moving: Shape): readonly NoFit[] {
  if (isDisc(moving)) return solidsOf(fixed)
  if (isDisc(fixed)) return (moving.mirrored ??= moving.hulls.map((hull) => noFitFrom(hull.map((mm) => -mm))))
  let noFits = moving.noFits.get(fixed.id)
  if (noFits === undefined) {
    if (moving.noFits.size > 2_000) moving.noFits.clear() // a long squeeze meets many angles; keep memory bounded
    noFits = fixed.hulls.flatMap((own) => moving.hulls.map((hull) => noFitFrom(noFitHull(own, hull))))
    moving.noFits.set(fixed.id, noFits)
  }
  return noFits
}

/** A circle about its own reference point: what keeps clear of it keeps clear of a point. */
const isDisc = ({ outline }: Shape): boolean => outline.symmetry === 'every'

/** The hulls with their outward normals; made once. */
export function solidsOf(shape: Shape): readonly NoFit[] {
  shape.solids ??= shape.hulls.map(noFitFrom)
  return shape.solids
}

/** Distance from a point to a hull; inside it minus the distance to its nearest side. Inexact from `enoughMm` on. */
export function distanceTo(hull: NoFit, x: number, y: number, enoughMm: number): number {
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
  return Math.sqrt(squareToSides(hull, x, y))
}

/** Squared distance from a point to the nearest side. */
export function squareToSides({ corners }: NoFit, x: number, y: number): number {
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

function noFitFrom(corners: FlatHull): NoFit {
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
  return { corners, normals, offsets, box: boxOf([corners], 0) }
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
