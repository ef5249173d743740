import { ANGLE_STEPS, type ChamberShape, type PlacedShelf, type Point, type ShelfKind } from '../types.ts'

/** Distance from a point to the wall; negative outside. */
export function wallRoomMm(shape: ChamberShape, p: Point): number {
  switch (shape.kind) {
    case 'round':
      return shape.diameterMm / 2 - Math.hypot(p.xMm, p.yMm)
    case 'oval': {
      const [long, short] = [Math.max(shape.lengthMm, shape.widthMm), Math.min(shape.lengthMm, shape.widthMm)]
      const [u, v] = shape.lengthMm >= shape.widthMm ? [p.xMm, p.yMm] : [p.yMm, p.xMm]
      const beyond = Math.max(0, Math.abs(u) - (long - short) / 2)
      return short / 2 - Math.hypot(beyond, v)
    }
    case 'many-sided':
      return shape.acrossFlatsMm / 2 - farthestAlong(shape.sides, p)
    case 'rectangular':
      return Math.min(shape.lengthMm / 2 - Math.abs(p.xMm), shape.widthMm / 2 - Math.abs(p.yMm))
  }
}

/** Distance from a point to the edge of a shelf where it lies; negative beyond it. */
export function shelfRoomMm(kind: ShelfKind, shelf: PlacedShelf, p: Point): number {
  const angle = (-2 * Math.PI * shelf.angleIndex) / ANGLE_STEPS
  const isQuarter = shelf.angleIndex % (ANGLE_STEPS / 4) === 0
  const cos = isQuarter ? Math.round(Math.cos(angle)) : Math.cos(angle)
  const sin = isQuarter ? Math.round(Math.sin(angle)) : Math.sin(angle)
  const [dx, dy] = [p.xMm - shelf.xMm, p.yMm - shelf.yMm]
  const own = { xMm: dx * cos - dy * sin, yMm: dx * sin + dy * cos }
  const { shape } = kind
  if (shape.kind === 'rectangular') {
    return Math.min(shape.lengthMm / 2 - Math.abs(own.xMm), shape.widthMm / 2 - Math.abs(own.yMm))
  }
  const wedge = wedgeRoom(shape.share, own)
  if (shape.kind === 'round') return Math.min(wedge, shape.diameterMm / 2 - Math.hypot(own.xMm, own.yMm))
  return Math.min(wedge, shape.acrossFlatsMm / 2 - farthestAlong(shape.sides, own))
}

const cornersKnown = new WeakMap<PlacedShelf, { readonly kind: ShelfKind; readonly corners: Point[] }>()

/** Points on a shelf's edge, counter-clockwise: its corners if it is a rectangle, else where 360 rays meet the edge. */
export function shelfCorners(kind: ShelfKind, shelf: PlacedShelf): Point[] {
  const known = cornersKnown.get(shelf)
  if (known?.kind === kind) return known.corners
  const corners = kind.shape.kind === 'rectangular' ? rectangleCorners(kind.shape, shelf) : edgeByRays(kind, shelf)
  cornersKnown.set(shelf, { kind, corners })
  return corners
}

function rectangleCorners(shape: { lengthMm: number; widthMm: number }, shelf: PlacedShelf): Point[] {
  const angle = (2 * Math.PI * shelf.angleIndex) / ANGLE_STEPS
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  return [-1, 1].flatMap((side) =>
    [side, -side].map((end) => {
      const [x, y] = [(-end * shape.lengthMm) / 2, (side * shape.widthMm) / 2]
      return { xMm: shelf.xMm + x * cos - y * sin, yMm: shelf.yMm + x * sin + y * cos }
    }),
  )
}

function edgeByRays(kind: ShelfKind, shelf: PlacedShelf): Point[] {
  const middle = innerPoint(kind, shelf)
  return Array.from({ length: 360 }, (_, k) => {
    const [dx, dy] = [Math.cos((k * Math.PI) / 180), Math.sin((k * Math.PI) / 180)]
    let [low, high] = [0, 1e4]
    for (let halving = 0; halving < 45; halving++) {
      const at = (low + high) / 2
      if (shelfRoomMm(kind, shelf, { xMm: middle.xMm + at * dx, yMm: middle.yMm + at * dy }) >= 0) low = at
      else high = at
    }
    return { xMm: middle.xMm + low * dx, yMm: middle.yMm + low * dy }
  })
}

/** A point of the shelf away from its edges. */
export function innerPoint(kind: ShelfKind, shelf: PlacedShelf): Point {
  const { shape } = kind
  if (shape.kind === 'rectangular' || shape.share === 'full') return { xMm: shelf.xMm, yMm: shelf.yMm }
  const part = { half: 1 / 2, third: 1 / 3, quarter: 1 / 4 }[shape.share]
  const outMm = (shape.kind === 'round' ? shape.diameterMm : shape.acrossFlatsMm) / 4
  const angle = (2 * Math.PI * shelf.angleIndex) / ANGLE_STEPS + Math.PI * part
  return { xMm: shelf.xMm + outMm * Math.cos(angle), yMm: shelf.yMm + outMm * Math.sin(angle) }
}

function wedgeRoom(share: 'full' | 'half' | 'third' | 'quarter', own: Point): number {
  const third = (2 * Math.PI) / 3
  switch (share) {
    case 'full':
      return Infinity
    case 'half':
      return own.yMm
    case 'third':
      return Math.min(own.yMm, Math.sin(third) * own.xMm - Math.cos(third) * own.yMm)
    case 'quarter':
      return Math.min(own.xMm, own.yMm)
  }
}

function farthestAlong(sides: number, p: Point): number {
  let farthest = -Infinity
  for (let k = 0; k < sides; k++) {
    const angle = (2 * Math.PI * k) / sides
    farthest = Math.max(farthest, p.xMm * Math.cos(angle) + p.yMm * Math.sin(angle))
  }
  return farthest
}
