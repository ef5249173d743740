import { cosOf, directionOf, sinOf } from './angles.ts'
import type { FlatHull } from './outline.ts'
import type { ChamberShape, ShelfShape } from './types.ts'

/**
 * A convex piece of floor: every point within `radius` of each capsule's axis, and on the inner side of every plane.
 * Capsules are ax, ay, bx, by, radius; planes nx, ny, d with n.p <= d and |n| = 1.
 */
export type Region = { readonly capsules: readonly number[]; readonly planes: readonly number[] }

/** The chamber seen from above, less a margin at the wall. */
export function chamberRegion(shape: ChamberShape, marginMm: number): Region {
  switch (shape.kind) {
    case 'round':
      return { capsules: [0, 0, 0, 0, shape.diameterMm / 2 - marginMm], planes: [] }
    case 'oval': {
      const half = (shape.lengthMm - shape.widthMm) / 2
      const radius = Math.min(shape.lengthMm, shape.widthMm) / 2 - marginMm
      return { capsules: half >= 0 ? [-half, 0, half, 0, radius] : [0, half, 0, -half, radius], planes: [] }
    }
    case 'many-sided':
      return { capsules: [], planes: polygonPlanes(shape.sides, shape.acrossFlatsMm / 2 - marginMm) }
    case 'rectangular':
      return { capsules: [], planes: rectanglePlanes(shape.lengthMm / 2 - marginMm, shape.widthMm / 2 - marginMm) }
  }
}

/** A shelf where it lies. */
export function shelfRegion(shape: ShelfShape, xMm: number, yMm: number, angleIndex: number): Region {
  const [cos, sin] = [cosOf(angleIndex), sinOf(angleIndex)]
  const own = ownShelfRegion(shape)
  const planes: number[] = []
  for (let i = 0; i < own.planes.length; i += 3) {
    const [nx, ny, d] = [own.planes[i]!, own.planes[i + 1]!, own.planes[i + 2]!]
    const [turnedX, turnedY] = [cos * nx - sin * ny, sin * nx + cos * ny]
    planes.push(turnedX, turnedY, d + turnedX * xMm + turnedY * yMm)
  }
  const capsules = own.capsules.length === 0 ? [] : [xMm, yMm, xMm, yMm, own.capsules[4]!]
  return { capsules, planes }
}

/** What both share, without the planes that a round part keeps clear of anyway. */
export function intersection(first: Region, second: Region): Region {
  const capsules = [...first.capsules, ...second.capsules]
  const all = [...first.planes, ...second.planes]
  const planes: number[] = []
  for (let i = 0; i < all.length; i += 3) {
    const plane = [all[i]!, all[i + 1]!, all[i + 2]!] as const
    if (!isBeyondCapsules(capsules, plane)) planes.push(...plane)
  }
  return { capsules: withoutWiderDiscs(capsules), planes }
}

function isBeyondCapsules(capsules: readonly number[], plane: readonly [number, number, number]): boolean {
  const [nx, ny, d] = plane
  for (let i = 0; i < capsules.length; i += 5) {
    const first = nx * capsules[i]! + ny * capsules[i + 1]!
    const second = nx * capsules[i + 2]! + ny * capsules[i + 3]!
    if (Math.max(first, second) + capsules[i + 4]! <= d) return true
  }
  return false
}

/** Drops capsules that hold another disc whole. */
function withoutWiderDiscs(capsules: readonly number[]): number[] {
  const kept: number[] = []
  for (let i = 0; i < capsules.length; i += 5) {
    let holdsAnother = false
    for (let j = 0; j < capsules.length && !holdsAnother; j += 5) {
      const isDisc = capsules[j] === capsules[j + 2] && capsules[j + 1] === capsules[j + 3]
      if (i === j || !isDisc) continue
      const spare = capsules[i + 4]! - capsules[j + 4]! - axisDistance(capsules, i, capsules[j]!, capsules[j + 1]!)
      holdsAnother = spare > 0 || (spare === 0 && j < i)
    }
    if (!holdsAnother) kept.push(...capsules.slice(i, i + 5))
  }
  return kept
}

/** The region less a margin on all sides. */
export function shrunk(region: Region, marginMm: number): Region {
  return {
    capsules: region.capsules.map((value, i) => (i % 5 === 4 ? value - marginMm : value)),
    planes: region.planes.map((value, i) => (i % 3 === 2 ? value - marginMm : value)),
  }
}

/** Distance from the hull grown by `radiusMm` to the nearest edge of the region; negative: it reaches beyond. */
export function roomInside(region: Region, hull: FlatHull, radiusMm: number, xMm: number, yMm: number): number {
  let room = Infinity
  const { planes, capsules } = region
  for (let k = 0; k < hull.length; k += 2) {
    const px = hull[k]! + xMm
    const py = hull[k + 1]! + yMm
    for (let i = 0; i < planes.length; i += 3) {
      const left = planes[i + 2]! - planes[i]! * px - planes[i + 1]! * py
      if (left < room) room = left
    }
    for (let i = 0; i < capsules.length; i += 5) {
      const left = capsules[i + 4]! - axisDistance(capsules, i, px, py)
      if (left < room) room = left
    }
  }
  return room - radiusMm
}

/** Distance from a point to the axis of the capsule that starts at `at`. */
export function axisDistance(capsules: readonly number[], at: number, px: number, py: number): number {
  const ax = capsules[at]!
  const ay = capsules[at + 1]!
  const dx = capsules[at + 2]! - ax
  const dy = capsules[at + 3]! - ay
  const square = dx * dx + dy * dy
  if (square === 0) return Math.sqrt((px - ax) * (px - ax) + (py - ay) * (py - ay))
  const along = Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / square))
  const qx = px - ax - along * dx
  const qy = py - ay - along * dy
  return Math.sqrt(qx * qx + qy * qy)
}

/** Area of the chamber less a margin, exact; 0 when nothing is left. */
export function chamberAreaMm2(shape: ChamberShape, marginMm: number): number {
  switch (shape.kind) {
    case 'round':
      return Math.PI * Math.max(0, shape.diameterMm / 2 - marginMm) ** 2
    case 'oval': {
      const radius = Math.max(0, Math.min(shape.lengthMm, shape.widthMm) / 2 - marginMm)
      return Math.PI * radius * radius + Math.abs(shape.lengthMm - shape.widthMm) * 2 * radius
    }
    case 'many-sided': {
      const flat = Math.max(0, shape.acrossFlatsMm / 2 - marginMm)
      return shape.sides * Math.tan(Math.PI / shape.sides) * flat * flat
    }
    case 'rectangular':
      return Math.max(0, shape.lengthMm - 2 * marginMm) * Math.max(0, shape.widthMm - 2 * marginMm)
  }
}

/** Radius of the least circle around the chamber less a margin. */
export function chamberReachMm(shape: ChamberShape, marginMm: number): number {
  switch (shape.kind) {
    case 'round':
      return shape.diameterMm / 2 - marginMm
    case 'oval':
      return Math.max(shape.lengthMm, shape.widthMm) / 2 - marginMm
    case 'many-sided':
      return (shape.acrossFlatsMm / 2 - marginMm) / Math.cos(Math.PI / shape.sides)
    case 'rectangular':
      return Math.hypot(shape.lengthMm / 2 - marginMm, shape.widthMm / 2 - marginMm)
  }
}

function ownShelfRegion(shape: ShelfShape): Region {
  if (shape.kind === 'rectangular') {
    return { capsules: [], planes: rectanglePlanes(shape.lengthMm / 2, shape.widthMm / 2) }
  }
  const wedge = wedgePlanes(shape.share)
  if (shape.kind === 'round') return { capsules: [0, 0, 0, 0, shape.diameterMm / 2], planes: wedge }
  return { capsules: [], planes: [...polygonPlanes(shape.sides, shape.acrossFlatsMm / 2), ...wedge] }
}

function wedgePlanes(share: ShelfShape['share']): number[] {
  switch (share) {
    case 'full':
      return []
    case 'half':
      return [0, -1, 0]
    case 'third': {
      const [x, y] = directionOf(1 / 3)
      return [0, -1, 0, -y, x, 0]
    }
    case 'quarter':
      return [0, -1, 0, -1, 0, 0]
  }
}

function polygonPlanes(sides: number, flatMm: number): number[] {
  const planes: number[] = []
  for (let k = 0; k < sides; k++) planes.push(...directionOf(k / sides), flatMm)
  return planes
}

function rectanglePlanes(halfLengthMm: number, halfWidthMm: number): number[] {
  return [1, 0, halfLengthMm, -1, 0, halfLengthMm, 0, 1, halfWidthMm, 0, -1, halfWidthMm]
}
