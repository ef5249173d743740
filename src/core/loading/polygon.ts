import { orient2d } from 'robust-predicates'
import type { Point } from './types.ts'

/** Twice the signed area: positive when counter-clockwise. */
export function doubleAreaOf(points: readonly Point[]): number {
  let sum = 0
  for (let i = 0; i < points.length; i++) {
    const a = points[i]!
    const b = points[(i + 1) % points.length]!
    sum += a.xMm * b.yMm - b.xMm * a.yMm
  }
  return sum
}

/** True when no two sides meet but neighbours at their shared corner. Exact (adaptive predicates); sides squared. */
export function isSimple(points: readonly Point[]): boolean {
  const n = points.length
  if (n < 3) return false
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const a = points[i]!
      const b = points[(i + 1) % n]!
      const c = points[j]!
      const d = points[(j + 1) % n]!
      const areNeighbours = j === i + 1 || (i === 0 && j === n - 1)
      if (areNeighbours ? foldsBack(i, j, points) : segmentsMeet(a, b, c, d)) return false
    }
  }
  return true
}

/**
 * Convex, counter-clockwise parts whose union is the simple polygon: ears cut off, then joined again wherever the
 * joint part stays convex (at most four times the fewest possible).
 * @see Hertel & Mehlhorn (1983), "Fast triangulation of simple polygons"
 */
export function convexPartsOf(points: readonly Point[]): Point[][] {
  const ring = doubleAreaOf(points) < 0 ? [...points].reverse() : [...points]
  if (isConvex(ring)) return [withoutStraightCorners(ring)]
  const parts = trianglesOf(ring)
  for (let i = 0; i < parts.length; i++) {
    for (let j = i + 1; j < parts.length; j++) {
      const joined = joinedAlongSide(parts[i]!, parts[j]!)
      if (joined === undefined) continue
      parts[i] = joined
      parts.splice(j, 1)
      j = i
    }
  }
  return parts.map(withoutStraightCorners)
}

/** The least convex outline around the points, counter-clockwise. @see Andrew (1979), monotone chain */
export function convexHullOf(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a.xMm - b.xMm || a.yMm - b.yMm)
  const chain = (from: readonly Point[]): Point[] => {
    const kept: Point[] = []
    for (const point of from) {
      while (kept.length > 1 && turnOf(kept.at(-2)!, kept.at(-1)!, point) <= 0) kept.pop()
      kept.push(point)
    }
    kept.pop()
    return kept
  }
  if (sorted.length < 3) return sorted
  return [...chain(sorted), ...chain(sorted.reverse())]
}

/** Positive when c lies left of the way from a to b; the sign is exact. */
function turnOf(a: Point, b: Point, c: Point): number {
  return -orient2d(a.xMm, a.yMm, b.xMm, b.yMm, c.xMm, c.yMm)
}

function isConvex(ring: readonly Point[]): boolean {
  const n = ring.length
  return ring.every((point, i) => turnOf(ring[(i + n - 1) % n]!, point, ring[(i + 1) % n]!) >= 0)
}

function withoutStraightCorners(ring: readonly Point[]): Point[] {
  const n = ring.length
  return ring.filter((point, i) => turnOf(ring[(i + n - 1) % n]!, point, ring[(i + 1) % n]!) !== 0)
}

function trianglesOf(ring: readonly Point[]): Point[][] {
  const rest = [...ring]
  const triangles: Point[][] = []
  while (rest.length > 3) {
    const ear = rest.findIndex((_, i) => isEar(rest, i))
    const at = ear < 0 ? 0 : ear // a polygon that is simple always has one; a sliver of no area may hide it
    const n = rest.length
    const triangle = [rest[(at + n - 1) % n]!, rest[at]!, rest[(at + 1) % n]!]
    if (turnOf(triangle[0]!, triangle[1]!, triangle[2]!) > 0) triangles.push(triangle)
    rest.splice(at, 1)
  }
  triangles.push(rest)
  return triangles
}

function isEar(ring: readonly Point[], at: number): boolean {
  const n = ring.length
  const a = ring[(at + n - 1) % n]!
  const b = ring[at]!
  const c = ring[(at + 1) % n]!
  if (turnOf(a, b, c) < 0) return false
  return ring.every(
    (p) => p === a || p === b || p === c || turnOf(a, b, p) < 0 || turnOf(b, c, p) < 0 || turnOf(c, a, p) < 0,
  )
}

function joinedAlongSide(first: readonly Point[], second: readonly Point[]): Point[] | undefined {
  for (let i = 0; i < first.length; i++) {
    const from = first[i]!
    const to = first[(i + 1) % first.length]!
    const at = second.findIndex((p, j) => p === to && second[(j + 1) % second.length] === from)
    if (at < 0) continue
    const beyond = second.map((_, k) => second[(at + 2 + k) % second.length]!).slice(0, second.length - 2)
    const joined = [...first.slice(0, i + 1), ...beyond, ...first.slice(i + 1)]
    if (isConvex(joined)) return joined
  }
  return undefined
}

function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  const abc = turnOf(a, b, c)
  const abd = turnOf(a, b, d)
  const cda = turnOf(c, d, a)
  const cdb = turnOf(c, d, b)
  if (abc === 0 && abd === 0) return boxesMeet(a, b, c, d)
  return abc * abd <= 0 && cda * cdb <= 0
}

function boxesMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  return (
    Math.max(Math.min(a.xMm, b.xMm), Math.min(c.xMm, d.xMm)) <=
      Math.min(Math.max(a.xMm, b.xMm), Math.max(c.xMm, d.xMm)) &&
    Math.max(Math.min(a.yMm, b.yMm), Math.min(c.yMm, d.yMm)) <= Math.min(Math.max(a.yMm, b.yMm), Math.max(c.yMm, d.yMm))
  )
}

/** Two neighbouring sides that lie on one another. */
function foldsBack(i: number, j: number, points: readonly Point[]): boolean {
  const n = points.length
  const isWrapped = i === 0 && j === n - 1 && n > 2
  const corner = points[isWrapped ? 0 : j]!
  const before = points[isWrapped ? n - 1 : i]!
  const after = points[isWrapped ? 1 : (j + 1) % n]!
  if (turnOf(before, corner, after) !== 0) return false
  const dot =
    (before.xMm - corner.xMm) * (after.xMm - corner.xMm) + (before.yMm - corner.yMm) * (after.yMm - corner.yMm)
  return dot >= 0
}
