import { orient2d } from 'robust-predicates'
import { ANGLE_STEPS, type Footprint, type Point } from '../types.ts'

/** The checker's own geometry, apart from the packer's on purpose: a fault in one must show in the other. */

/** What the checker forgives, mm: a nanometre, far above rounding and far below any clearance. */
export const FORGIVEN_MM = 1e-6

/** An outline where it lies: convex corner lists and the radius they are grown by. */
export type Placed = { readonly hulls: readonly (readonly Point[])[]; readonly radiusMm: number }

export function placed(footprint: Footprint, xMm: number, yMm: number, angleIndex: number): Placed {
  const angle = (2 * Math.PI * angleIndex) / ANGLE_STEPS
  const cos = angleIndex % (ANGLE_STEPS / 4) === 0 ? Math.round(Math.cos(angle)) : Math.cos(angle)
  const sin = angleIndex % (ANGLE_STEPS / 4) === 0 ? Math.round(Math.sin(angle)) : Math.sin(angle)
  const moved = (p: Point): Point => ({
    xMm: xMm + p.xMm * cos - p.yMm * sin,
    yMm: yMm + p.xMm * sin + p.yMm * cos,
  })
  return { hulls: footprint.hulls.map((hull) => hull.map(moved)), radiusMm: footprint.radiusMm }
}

export function disc(xMm: number, yMm: number, radiusMm: number): Placed {
  return { hulls: [[{ xMm, yMm }]], radiusMm }
}

/** Distance between two outlines; negative when they overlap. */
export function distanceMm(a: Placed, b: Placed): number {
  let least = Infinity
  for (const first of a.hulls) for (const second of b.hulls) least = Math.min(least, hullDistance(first, second))
  return least - a.radiusMm - b.radiusMm
}

/** Least room from any point of the outline to an edge, given the room at a point. */
export function roomMm(outline: Placed, roomAt: (p: Point) => number): number {
  return Math.min(...outline.hulls.flatMap((hull) => hull.map(roomAt))) - outline.radiusMm
}

/** Points along the rim of the outline, at most `stepMm` apart. */
export function rimOf(outline: Placed, stepMm: number): Point[] {
  return outline.hulls.flatMap((hull) => rimOfHull(hull, outline.radiusMm, stepMm))
}

/** True when the boxes of two outlines keep them apart already. */
export function boxesApart(a: Placed, b: Placed): boolean {
  const [first, second] = [boxOf(a), boxOf(b)]
  return (
    first.minX >= second.maxX || second.minX >= first.maxX || first.minY >= second.maxY || second.minY >= first.maxY
  )
}

/** The box around the outline. */
export function boxOf({ hulls, radiusMm }: Placed): { minX: number; minY: number; maxX: number; maxY: number } {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const hull of hulls) {
    for (const { xMm, yMm } of hull) {
      minX = Math.min(minX, xMm)
      minY = Math.min(minY, yMm)
      maxX = Math.max(maxX, xMm)
      maxY = Math.max(maxY, yMm)
    }
  }
  return { minX: minX - radiusMm, minY: minY - radiusMm, maxX: maxX + radiusMm, maxY: maxY + radiusMm }
}

function hullDistance(first: readonly Point[], second: readonly Point[]): number {
  if (overlap(first, second)) return -depthOf(first, second)
  let least = Infinity
  for (const p of first) for (const [a, b] of sidesOf(second)) least = Math.min(least, pointToSide(p, a, b))
  for (const p of second) for (const [a, b] of sidesOf(first)) least = Math.min(least, pointToSide(p, a, b))
  return least
}

/** True when interiors meet: a side properly crosses another, or one hull holds a corner or the middle of the other. */
function overlap(first: readonly Point[], second: readonly Point[]): boolean {
  for (const [a, b] of sidesOf(first)) {
    for (const [c, d] of sidesOf(second)) {
      const crossesCd = turn(a, b, c) * turn(a, b, d) < 0
      if (crossesCd && turn(c, d, a) * turn(c, d, b) < 0) return true
    }
  }
  const isInside = (p: Point, hull: readonly Point[]): boolean =>
    hull.length > 2 && sidesOf(hull).every(([a, b]) => turn(a, b, p) > 0)
  return (
    first.some((p) => isInside(p, second)) ||
    second.some((p) => isInside(p, first)) ||
    isInside(middleOf(first), second) ||
    isInside(middleOf(second), first)
  )
}

/** Least shift that parts two hulls that overlap, over the directions of all sides. */
function depthOf(first: readonly Point[], second: readonly Point[]): number {
  let least = Infinity
  for (const [a, b] of [...sidesOf(first), ...sidesOf(second)]) {
    const length = Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm)
    if (length === 0) continue // the one "side" of a point has no direction
    const [x, y] = [(b.yMm - a.yMm) / length, (a.xMm - b.xMm) / length]
    const [lowOfFirst, highOfFirst] = reachAlong(x, y, first)
    const [lowOfSecond, highOfSecond] = reachAlong(x, y, second)
    least = Math.min(least, highOfFirst - lowOfSecond, highOfSecond - lowOfFirst)
  }
  return least
}

/** Between what and what a hull lies along a direction of length 1. */
function reachAlong(x: number, y: number, hull: readonly Point[]): [low: number, high: number] {
  let low = Infinity
  let high = -Infinity
  for (const p of hull) {
    const along = x * p.xMm + y * p.yMm
    if (along < low) low = along
    if (along > high) high = along
  }
  return [low, high]
}

/** Positive when c lies left of a to b; the sign is exact. */
const turn = (a: Point, b: Point, c: Point): number => -orient2d(a.xMm, a.yMm, b.xMm, b.yMm, c.xMm, c.yMm)

function sidesOf(hull: readonly Point[]): [Point, Point][] {
  if (hull.length === 1) return [[hull[0]!, hull[0]!]]
  if (hull.length === 2) return [[hull[0]!, hull[1]!]]
  return hull.map((p, i) => [p, hull[(i + 1) % hull.length]!])
}

function middleOf(hull: readonly Point[]): Point {
  const sum = hull.reduce((s, p) => ({ xMm: s.xMm + p.xMm, yMm: s.yMm + p.yMm }), { xMm: 0, yMm: 0 })
  return { xMm: sum.xMm / hull.length, yMm: sum.yMm / hull.length }
}

function pointToSide(p: Point, a: Point, b: Point): number {
  const [sx, sy] = [b.xMm - a.xMm, b.yMm - a.yMm]
  const square = sx * sx + sy * sy
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p.xMm - a.xMm) * sx + (p.yMm - a.yMm) * sy) / square))
  return Math.hypot(p.xMm - a.xMm - t * sx, p.yMm - a.yMm - t * sy)
}

function rimOfHull(hull: readonly Point[], radiusMm: number, stepMm: number): Point[] {
  const rim: Point[] = []
  const ring = hull.length === 2 ? [hull[0]!, hull[1]!] : hull
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!
    const before = ring[(i + ring.length - 1) % ring.length]!
    const angleOf = (from: Point, to: Point): number => Math.atan2(from.xMm - to.xMm, to.yMm - from.yMm)
    const isPoint = ring.length === 1
    const start = isPoint ? 0 : angleOf(before, p)
    const sweep = isPoint ? 2 * Math.PI : (angleOf(p, q) - start + 4 * Math.PI) % (2 * Math.PI)
    const arcSteps = Math.max(1, Math.ceil((sweep * radiusMm) / stepMm))
    for (let k = 0; k <= arcSteps; k++) {
      const angle = start + (sweep * k) / arcSteps
      rim.push({ xMm: p.xMm + radiusMm * Math.cos(angle), yMm: p.yMm + radiusMm * Math.sin(angle) })
    }
    if (isPoint) return
    const length = Math.hypot(q.xMm - p.xMm, q.yMm - p.yMm)
    const [nx, ny] = [((q.yMm - p.yMm) / length) * radiusMm, (-(q.xMm - p.xMm) / length) * radiusMm]
    const sideSteps = Math.max(1, Math.ceil(length / stepMm))
    for (let k = 1; k < sideSteps; k++) {
      const t = k / sideSteps
      rim.push({ xMm: p.xMm + t * (q.xMm - p.xMm) + nx, yMm: p.yMm + t * (q.yMm - p.yMm) + ny })
    }
  })
  return rim
}
