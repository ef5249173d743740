import { cosOf, sinOf, stepOf } from './angles.ts'
import { oncePer } from './once.ts'
import { ANGLE_STEPS, type Footprint, type Point, type Rotation } from './types.ts'

/** A convex hull as x0, y0, x1, y1 ... counter-clockwise. */
export type FlatHull = Float64Array

/** A footprint made ready for the packer: flat numbers, its measures, and its turned hulls as they are asked for. */
export type Outline = {
  /** Tells outlines apart within one run; carries no other meaning. */
  readonly id: number
  readonly hulls: readonly FlatHull[]
  readonly radiusMm: number
  /** Farthest point from the reference point. */
  readonly reachMm: number
  readonly areaMm2: number
  readonly perimeterMm: number
  /** Radius of a disc that lies inside (not always the largest). */
  readonly inradiusMm: number
  /** Largest distance between two of its points. */
  readonly diameterMm: number
  /** Turns after which it covers itself: every angle (circle), half or quarter turns, or only full turns. */
  readonly symmetry: 'every' | 'quarter' | 'half' | 'none'
  readonly turns: Map<number, readonly FlatHull[]>
}

let outlineCount = 0

/** The outline of a footprint. */
export const outlineOf = oncePer(outlineFrom)

/** Hulls turned by a step of the angle table about the reference point. */
export function hullsAt(outline: Outline, angleIndex: number): readonly FlatHull[] {
  const step = stepOf(angleIndex)
  if (step === 0 || outline.symmetry === 'every') return outline.hulls
  let turned = outline.turns.get(step)
  if (turned === undefined) {
    turned = outline.hulls.map((hull) => turnedHull(hull, cosOf(step), sinOf(step)))
    outline.turns.set(step, turned)
  }
  return turned
}

export function turnedHull(hull: FlatHull, cos: number, sin: number): FlatHull {
  const turned = new Float64Array(hull.length)
  for (let i = 0; i < hull.length; i += 2) {
    turned[i] = cos * hull[i]! - sin * hull[i + 1]!
    turned[i + 1] = sin * hull[i]! + cos * hull[i + 1]!
  }
  return turned
}

/** Different steps of the angle table worth trying, `perTurn` of them in a full turn, as the rotation rule allows. */
export function angleChoices(outline: Outline, rotation: Rotation, perTurn: number): number[] {
  const allowed = { any: perTurn, quarter: 4, half: 2, none: 1 }[rotation]
  const period = { every: 1 / allowed, quarter: 1 / 4, half: 1 / 2, none: 1 }[outline.symmetry]
  const choices: number[] = []
  for (let k = 0; k < allowed && k / allowed < period - 1e-9; k++) choices.push(Math.round((k * ANGLE_STEPS) / allowed))
  return choices
}

/** Area of the outline grown by a margin, for one convex hull exact, for several from below. */
export function grownAreaMm2(outline: Outline, marginMm: number): number {
  if (outline.hulls.length === 1) {
    return outline.areaMm2 + outline.perimeterMm * marginMm + Math.PI * marginMm * marginMm
  }
  return outline.areaMm2
}

function outlineFrom(footprint: Footprint): Outline {
  const hulls = footprint.hulls.map(flatHull)
  const { radiusMm } = footprint
  const sizes = hulls.map((hull) => hullSizes(hull, radiusMm))
  const symmetry = symmetryOf(hulls)
  const largest = sizes.reduce((a, b) => (b.areaMm2 > a.areaMm2 ? b : a))
  return {
    id: outlineCount++,
    hulls,
    radiusMm,
    reachMm: Math.max(...hulls.map(reachOf)) + radiusMm,
    areaMm2: largest.areaMm2,
    perimeterMm: largest.perimeterMm,
    inradiusMm: Math.max(...sizes.map((size) => size.inradiusMm)),
    diameterMm: diameterOf(hulls, symmetry !== 'none') + 2 * radiusMm,
    symmetry,
    turns: new Map(),
  }
}

function flatHull(points: readonly Point[]): FlatHull {
  const hull = new Float64Array(2 * points.length)
  for (let i = 0; i < points.length; i++) {
    hull[2 * i] = points[i]!.xMm
    hull[2 * i + 1] = points[i]!.yMm
  }
  return hull
}

function hullSizes(hull: FlatHull, radiusMm: number): { areaMm2: number; perimeterMm: number; inradiusMm: number } {
  const n = hull.length / 2
  let doubleArea = 0
  let perimeterMm = 0
  let [middleX, middleY] = [0, 0]
  for (let i = 0; i < n; i++) {
    const j = i + 1 < n ? 2 * i + 2 : 0
    const ax = hull[2 * i]!
    const ay = hull[2 * i + 1]!
    const bx = hull[j]!
    const by = hull[j + 1]!
    doubleArea += ax * by - bx * ay
    perimeterMm += lengthOf(bx - ax, by - ay)
    middleX += ax / n
    middleY += ay / n
  }
  let clear = n < 3 ? 0 : Infinity
  for (let i = 0; n >= 3 && i < n; i++) {
    const j = i + 1 < n ? 2 * i + 2 : 0
    const ax = hull[2 * i]!
    const ay = hull[2 * i + 1]!
    const bx = hull[j]!
    const by = hull[j + 1]!
    const length = lengthOf(bx - ax, by - ay)
    clear = Math.min(clear, ((bx - ax) * (middleY - ay) - (by - ay) * (middleX - ax)) / length)
  }
  return {
    areaMm2: doubleArea / 2 + perimeterMm * radiusMm + Math.PI * radiusMm * radiusMm,
    perimeterMm: perimeterMm + 2 * Math.PI * radiusMm,
    inradiusMm: clear + radiusMm,
  }
}

/** Sizes here are far from overflow, against which `Math.hypot` guards at ten times the cost. */
const lengthOf = (x: number, y: number): number => Math.sqrt(x * x + y * y)

export function reachOf(hull: FlatHull): number {
  let reach = 0
  for (let i = 0; i < hull.length; i += 2) reach = Math.max(reach, lengthOf(hull[i]!, hull[i + 1]!))
  return reach
}

function diameterOf(hulls: readonly FlatHull[], isCentred: boolean): number {
  if (isCentred) return 2 * reachOf(hulls[0]!)
  const corners = hulls.flatMap((hull) => Array.from(hull))
  let diameter = 0
  for (let i = 0; i < corners.length; i += 2) {
    for (let j = 0; j < i; j += 2) {
      diameter = Math.max(diameter, lengthOf(corners[i]! - corners[j]!, corners[i + 1]! - corners[j + 1]!))
    }
  }
  return diameter
}

function symmetryOf(hulls: readonly FlatHull[]): Outline['symmetry'] {
  if (hulls.length > 1) return 'none'
  const hull = hulls[0]!
  if (hull.length === 2) return hull[0] === 0 && hull[1] === 0 ? 'every' : 'none'
  if (!coversItself(hull, -1, 0, 2)) return 'none'
  return coversItself(hull, 0, 1, 4) ? 'quarter' : 'half'
}

/** True when a turn by one `parts`-th of a full turn brings every corner onto the one as many places further on. */
function coversItself(hull: FlatHull, cos: number, sin: number, parts: number): boolean {
  const shift = hull.length / parts
  if (shift % 2 !== 0) return false
  for (let i = 0; i < hull.length; i += 2) {
    const j = (i + shift) % hull.length
    if (Math.abs(cos * hull[i]! - sin * hull[i + 1]! - hull[j]!) >= 1e-9) return false
    if (Math.abs(sin * hull[i]! + cos * hull[i + 1]! - hull[j + 1]!) >= 1e-9) return false
  }
  return true
}
