import {
  boxesApart as boxesClear,
  disc,
  distanceMm,
  FORGIVEN_MM,
  placed,
  rimOf,
  roomMm,
  type Placed,
} from './geometry.ts'
import { shelfCorners, shelfRoomMm, wallRoomMm } from './kiln.ts'
import { beneath, breach, type Standing } from './pieces.ts'
import type { LoadBreach } from './breach.ts'
import type { Footprint, KilnSpace, Load, LoadLevel, PostKind, ShelfKind } from '../types.ts'

const RIM_STEP_MM = 0.5

/** Pieces against pieces, wall, shelf edges and joints, posts, keep-outs, shelves above and the lid. */
export function distanceBreaches(kiln: KilnSpace, load: Load, standing: readonly Standing[]): LoadBreach[] {
  return [
    ...standing.flatMap((piece, i) => gapBreaches(kiln, load, piece, standing.slice(i + 1), standing)),
    ...standing.flatMap((piece) => placeBreaches(kiln, load, piece)),
  ]
}

/** One piece against wall, shelf edges and joints, posts, keep-outs, shelves above and the lid. */
export function placeBreaches(kiln: KilnSpace, load: Load, piece: Standing): LoadBreach[] {
  return [
    ...edgeBreaches(kiln, load, piece),
    ...postBreaches(kiln, load, piece),
    ...keepOutBreaches(kiln, piece),
    ...headBreaches(kiln, load, piece),
  ]
}

/** One piece against others that it does not stand on or carry. */
export function gapBreaches(
  kiln: KilnSpace,
  load: Load,
  a: Standing,
  others: readonly Standing[],
  standing: readonly Standing[],
): LoadBreach[] {
  const gapMm = load.kind === 'glaze' ? kiln.clearances.glazeGapMm : kiln.clearances.bisqueGapMm
  const near = others.filter((b) => heightsMeet(a, b) && !boxesApart(a, b, gapMm))
  if (near.length === 0) return []
  const byKey = new Map(standing.map((piece) => [piece.item.key, piece]))
  return near.flatMap((b) => {
    if (beneath(a, byKey).includes(b) || beneath(b, byKey).includes(a)) return []
    const apartMm = distanceMm(a.outline, b.outline)
    if (apartMm >= gapMm - FORGIVEN_MM) return []
    return [breach('pieces-too-close', { piece: a.item.key, other: b.item.key, apartMm, gapMm })]
  })
}

function edgeBreaches(kiln: KilnSpace, load: Load, piece: Standing): LoadBreach[] {
  const { wallMm } = kiln.clearances
  const level = load.levels[piece.level]!
  const name = piece.item.key
  const breaches: LoadBreach[] = []
  const toWallMm = roomMm(piece.outline, (p) => wallRoomMm(kiln.chamber.shape, p))
  if (toWallMm < wallMm - FORGIVEN_MM) breaches.push(breach('wall-too-close', { piece: name, toWallMm, wallMm }))
  if (piece.placement.onTopOf !== undefined) return breaches // what carries it stands on the shelf
  const shelves = shelvesOf(kiln, level)
  const roomOnMm = shelves.map(([kind, shelf]) => roomMm(piece.outline, (p) => shelfRoomMm(kind, shelf, p)))
  if (roomOnMm.some((room) => room >= -FORGIVEN_MM)) return breaches
  const beyondMm = -Math.max(...roomOnMm)
  // With one shelf there is no joint to stand across.
  const isOnJoined =
    shelves.length > 1 &&
    rimOf(piece.outline, RIM_STEP_MM).every((p) =>
      shelves.some(([kind, shelf]) => shelfRoomMm(kind, shelf, p) >= -FORGIVEN_MM),
    )
  if (!isOnJoined) breaches.push(breach('over-shelf-edge', { piece: name, beyondMm }))
  else if (piece.item.wholeShelf === true) breaches.push(breach('across-joint', { piece: name }))
  return breaches
}

function postBreaches(kiln: KilnSpace, load: Load, piece: Standing): LoadBreach[] {
  const kinds = new Map(kiln.furniture.posts.map((kind) => [kind.id, kind]))
  const { postMm } = kiln.clearances
  return load.levels.flatMap((level) =>
    level.posts.flatMap((post) => {
      const toZMm = post.fromZMm + post.lengthMm
      if (post.fromZMm >= piece.toZMm - FORGIVEN_MM || toZMm <= piece.fromZMm + FORGIVEN_MM) return []
      const kind = kinds.get(post.postIds[0] ?? '')
      if (kind === undefined) return []
      const apartMm = distanceMm(piece.outline, placed(postOutline(kind), post.xMm, post.yMm, 0))
      if (apartMm >= postMm - FORGIVEN_MM) return []
      return [breach('post-too-close', { piece: piece.item.key, apartMm, postMm })]
    }),
  )
}

function keepOutBreaches(kiln: KilnSpace, piece: Standing): LoadBreach[] {
  const { keepOutMm } = kiln.clearances
  return kiln.chamber.keepOuts.flatMap((keepOut) => {
    const isBeside = piece.fromZMm < keepOut.toZMm + keepOutMm && piece.toZMm > keepOut.fromZMm - keepOutMm
    const apartMm = distanceMm(piece.outline, disc(keepOut.xMm, keepOut.yMm, keepOut.radiusMm))
    if (!isBeside || apartMm >= keepOutMm - FORGIVEN_MM) return []
    return [breach('keep-out-too-close', { piece: piece.item.key, keepOut: keepOut.name, apartMm, keepOutMm })]
  })
}

/** Shelves over the piece, shelves at its side, and the lid. */
function headBreaches(kiln: KilnSpace, load: Load, piece: Standing): LoadBreach[] {
  const { headspaceMm, lidMm } = kiln.clearances
  const spareMm = kiln.chamber.heightMm - lidMm - piece.toZMm
  const breaches =
    spareMm < -FORGIVEN_MM ? [breach('too-tall-for-level', { piece: piece.item.key, overMm: -spareMm })] : []
  load.levels.forEach((level, i) => {
    for (const [kind, shelf] of shelvesOf(kiln, level)) {
      const undersideMm = level.zMm - kind.thicknessMm
      const isBelow = level.zMm <= piece.fromZMm + FORGIVEN_MM
      if (isBelow || i === piece.level || undersideMm >= piece.toZMm + headspaceMm - FORGIVEN_MM) continue
      const outline: Placed = { hulls: [shelfCorners(kind, shelf)], radiusMm: 0 }
      if (boxesClear(piece.outline, outline) || distanceMm(piece.outline, outline) >= -0.01) continue
      breaches.push(
        breach('too-tall-for-level', { piece: piece.item.key, overMm: piece.toZMm + headspaceMm - undersideMm }),
      )
    }
  })
  return breaches
}

/** Seen from above; a triangle stands on its centroid with a side towards -y. */
export function postOutline(kind: PostKind): Footprint {
  const half = kind.sizeMm / 2
  const flat = (corners: readonly (readonly [number, number])[]): Footprint => ({
    hulls: [corners.map(([xMm, yMm]) => ({ xMm, yMm }))],
    radiusMm: 0,
  })
  switch (kind.section) {
    case 'round':
      return { hulls: [[{ xMm: 0, yMm: 0 }]], radiusMm: half }
    case 'square':
      return flat([
        [-half, -half],
        [half, -half],
        [half, half],
        [-half, half],
      ])
    case 'triangle':
      return flat([
        [-half, -half / Math.sqrt(3)],
        [half, -half / Math.sqrt(3)],
        [0, (2 * half) / Math.sqrt(3)],
      ])
  }
}

export function shelvesOf(kiln: KilnSpace, level: LoadLevel): (readonly [ShelfKind, LoadLevel['shelves'][number]])[] {
  return level.shelves.flatMap((shelf) => {
    const kind = kiln.furniture.shelves.find((known) => known.id === shelf.shelfId)
    return kind === undefined ? [] : [[kind, shelf] as const]
  })
}

const heightsMeet = (a: Standing, b: Standing): boolean =>
  a.fromZMm < b.toZMm - FORGIVEN_MM && b.fromZMm < a.toZMm - FORGIVEN_MM

const boxesApart = (a: Standing, b: Standing, gapMm: number): boolean =>
  a.box.minX > b.box.maxX + gapMm ||
  b.box.minX > a.box.maxX + gapMm ||
  a.box.minY > b.box.maxY + gapMm ||
  b.box.minY > a.box.maxY + gapMm
