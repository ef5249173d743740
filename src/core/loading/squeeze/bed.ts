import { directionOf } from '../angles.ts'
import type { FlatHull, Outline } from '../outline.ts'
import { axisDistance, type Region } from '../region.ts'
import { newSeparation, separate } from '../separation.ts'
import type { Obstacle } from '../walls.ts'
import type { Rotation } from '../types.ts'

/** A piece to be set down: its outline, the turns it allows and the floor it has to stay on. */
export type Loose = { readonly outline: Outline; readonly rotation: Rotation; readonly region: Region }

/** Pieces on a shelf with what stands there already; no piece may come nearer to another or to an obstacle than the gap. */
export type SqueezeTask = {
  readonly pieces: readonly Loose[]
  readonly obstacles: readonly Obstacle[]
  readonly gapMm: number
}

/**
 * The task made ready for its energy. Variables are x, y and turn of each piece, the turn as the way of its farthest
 * point, so that all three are lengths in mm.
 */
export type Bed = {
  readonly task: SqueezeTask
  readonly bodies: readonly Body[]
  /** Weight of each pair, [piece][other], row-major; obstacles come after the pieces. */
  readonly weights: Float64Array
  readonly columns: number
}

/** A piece where it stands in the evaluation at hand. */
type Body = {
  readonly region: Region
  /** False for circles, for what may not take any angle, and once angles are settled. */
  canTurn: boolean
  xMm: number
  yMm: number
  /** As the variable says it. */
  turn: number
  readonly ownHulls: readonly FlatHull[]
  /** Turned, about the reference point. */
  readonly hulls: FlatHull[]
  readonly radiusMm: number
  readonly reachMm: number
}

/** Added to every gap, mm, so that what ends nearly touching is clear after all. */
export const MARGIN_MM = 2e-4
/** How the edge of the floor counts against a pair, which moves two. */
const EDGE_WEIGHT = 2

export function bedOf(task: SqueezeTask): Bed {
  const count = task.pieces.length
  const columns = count + task.obstacles.length
  const bodies = task.pieces.map(({ outline, rotation, region }): Body => {
    const { hulls, radiusMm, reachMm, symmetry } = outline
    const canTurn = rotation === 'any' && symmetry !== 'every'
    const turned = hulls.map((hull) => hull.slice())
    return { region, canTurn, xMm: 0, yMm: 0, turn: 0, ownHulls: hulls, hulls: turned, radiusMm, reachMm }
  })
  return { task, bodies, weights: new Float64Array(count * columns).fill(1), columns }
}

/** Weighted squares of how much pairs miss their gap by, and pieces reach over the edge of their floor. */
export function missEnergy(bed: Bed, x: Float64Array, slope: Float64Array): number {
  slope.fill(0)
  bed.bodies.forEach((_, i) => setBody(bed, i, x))
  let energy = 0
  for (let i = 0; i < bed.bodies.length; i++) energy += energyOfPiece(bed, i, i, slope)
  return energy
}

/** Sets a piece where the variables say. */
export function setBody({ bodies }: Bed, i: number, x: Float64Array): void {
  const body = bodies[i]!
  body.xMm = x[3 * i]!
  body.yMm = x[3 * i + 1]!
  if (x[3 * i + 2] === body.turn) return
  body.turn = x[3 * i + 2]!
  const [cos, sin] = directionOf(turnShare(body, body.turn))
  for (let h = 0; h < body.hulls.length; h++) turnInto(body.ownHulls[h]!, cos, sin, body.hulls[h]!)
}

/** The turn variable as a share of a full turn. */
export const turnShare = ({ reachMm }: { readonly reachMm: number }, turn: number): number =>
  turn / (2 * Math.PI * reachMm)

/** The other way about. */
export const turnOf = ({ reachMm }: { readonly reachMm: number }, share: number): number =>
  share * 2 * Math.PI * reachMm

/** Energy of one piece against the edge, the obstacles and the pieces before `end`, itself left out. */
export function energyOfPiece(bed: Bed, i: number, end: number, slope: Float64Array): number {
  const { task, bodies, weights, columns } = bed
  const row = i * columns
  let energy = edgeEnergy(bed, i, slope)
  for (let k = 0; k < task.obstacles.length; k++) {
    const weight = weights[row + bodies.length + k]!
    energy += weight * obstacleMiss(bed, i, k, weight, slope)
  }
  for (let j = 0; j < end; j++) {
    if (j === i) continue
    const weight = weights[j < i ? row + j : j * columns + i]!
    energy += weight * pairMiss(bed, i, j, weight, slope)
  }
  return energy
}

/** Square of how much a piece misses its gap to an obstacle by; the slope is added to, times the weight. */
export function obstacleMiss(bed: Bed, i: number, k: number, weight: number, slope: Float64Array): number {
  const { shape, xMm, yMm, gapMm } = bed.task.obstacles[k]!
  return missBetween(bed.bodies[i]!, 3 * i, shape, xMm, yMm, -1, gapMm, weight, slope)
}

/** The same for two pieces. */
export function pairMiss(bed: Bed, i: number, j: number, weight: number, slope: Float64Array): number {
  const other = bed.bodies[j]!
  return missBetween(bed.bodies[i]!, 3 * i, other, other.xMm, other.yMm, 3 * j, bed.task.gapMm, weight, slope)
}

type Solid = { readonly hulls: readonly FlatHull[]; readonly radiusMm: number; readonly reachMm: number }

const found = newSeparation()

/** @param at, otherAt where the variables of each start; -1: it stands still */
function missBetween(
  body: Body,
  at: number,
  other: Solid,
  otherX: number,
  otherY: number,
  otherAt: number,
  gapMm: number,
  weight: number,
  slope: Float64Array,
): number {
  const { xMm, yMm } = body
  const near = body.reachMm + other.reachMm + gapMm + MARGIN_MM
  const dx = otherX - xMm
  const dy = otherY - yMm
  if (dx * dx + dy * dy >= near * near) return 0
  const need = body.radiusMm + other.radiusMm + gapMm + MARGIN_MM
  let sum = 0
  for (const own of body.hulls) {
    for (const hull of other.hulls) {
      const miss = need - separate(own, xMm, yMm, hull, otherX, otherY, need, found)
      if (miss <= 0) continue
      sum += miss * miss
      const push = 2 * weight * miss
      addPush(slope, at, push * found.normalX, push * found.normalY, found.firstX - xMm, found.firstY - yMm, body)
      if (otherAt < 0) continue
      const [fromX, fromY] = [found.secondX - otherX, found.secondY - otherY]
      addPush(slope, otherAt, -push * found.normalX, -push * found.normalY, fromX, fromY, other as Body)
    }
  }
  return sum
}

/** A slope felt at a point of a piece, given from its reference point, on the piece's three variables. */
function addPush(slope: Float64Array, at: number, pushX: number, pushY: number, x: number, y: number, body: Body) {
  slope[at] = slope[at]! + pushX
  slope[at + 1] = slope[at + 1]! + pushY
  if (body.canTurn) slope[at + 2] = slope[at + 2]! + (x * pushY - y * pushX) / body.reachMm
}

/** For every straight or round part of the floor's edge: how far the farthest corner reaches over it. */
export function edgeEnergy({ bodies }: Bed, i: number, slope: Float64Array): number {
  const body = bodies[i]!
  const { planes, capsules } = body.region
  let energy = 0
  for (let p = 0; p < planes.length; p += 3) {
    const [nx, ny] = [planes[p]!, planes[p + 1]!]
    const over = nx * body.xMm + ny * body.yMm + body.radiusMm + MARGIN_MM - planes[p + 2]!
    if (over + body.reachMm <= 0) continue
    energy += overPlane(body, 3 * i, nx, ny, over, slope)
  }
  for (let c = 0; c < capsules.length; c += 5) energy += overRound(body, 3 * i, c, slope)
  return energy
}

function overPlane(body: Body, at: number, nx: number, ny: number, over: number, slope: Float64Array): number {
  let [most, cornerX, cornerY] = [0, 0, 0]
  for (const hull of body.hulls) {
    for (let k = 0; k < hull.length; k += 2) {
      const miss = over + nx * hull[k]! + ny * hull[k + 1]!
      if (miss <= most) continue
      most = miss
      cornerX = hull[k]!
      cornerY = hull[k + 1]!
    }
  }
  if (most === 0) return 0
  const push = 2 * EDGE_WEIGHT * most
  addPush(slope, at, push * nx, push * ny, cornerX, cornerY, body)
  return EDGE_WEIGHT * most * most
}

function overRound(body: Body, at: number, capsule: number, slope: Float64Array): number {
  const { capsules } = body.region
  const room = capsules[capsule + 4]! - body.radiusMm - MARGIN_MM
  let [most, cornerX, cornerY] = [0, 0, 0]
  for (const hull of body.hulls) {
    for (let k = 0; k < hull.length; k += 2) {
      const miss = axisDistance(capsules, capsule, hull[k]! + body.xMm, hull[k + 1]! + body.yMm) - room
      if (miss <= most) continue
      most = miss
      cornerX = hull[k]!
      cornerY = hull[k + 1]!
    }
  }
  if (most === 0) return 0
  const [awayX, awayY] = fromAxis(capsules, capsule, cornerX + body.xMm, cornerY + body.yMm)
  const push = 2 * EDGE_WEIGHT * most
  addPush(slope, at, push * awayX, push * awayY, cornerX, cornerY, body)
  return EDGE_WEIGHT * most * most
}

/** Unit vector from the nearest point of a capsule's axis. */
function fromAxis(capsules: readonly number[], at: number, px: number, py: number): readonly [number, number] {
  const [ax, ay] = [capsules[at]!, capsules[at + 1]!]
  const [ux, uy] = [capsules[at + 2]! - ax, capsules[at + 3]! - ay]
  const square = ux * ux + uy * uy
  const along = square === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * ux + (py - ay) * uy) / square))
  const [dx, dy] = [px - ax - along * ux, py - ay - along * uy]
  const length = Math.sqrt(dx * dx + dy * dy)
  return length === 0 ? [1, 0] : [dx / length, dy / length]
}

function turnInto(hull: FlatHull, cos: number, sin: number, turned: FlatHull): void {
  for (let k = 0; k < hull.length; k += 2) {
    turned[k] = cos * hull[k]! - sin * hull[k + 1]!
    turned[k + 1] = sin * hull[k]! + cos * hull[k + 1]!
  }
}
