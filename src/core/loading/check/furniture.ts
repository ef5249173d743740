import { shelvesOf } from './distances.ts'
import { boxesApart, distanceMm, disc, FORGIVEN_MM, type Placed } from './geometry.ts'
import { shelfCorners, shelfRoomMm, wallRoomMm } from './kiln.ts'
import { breach } from './pieces.ts'
import type { LoadBreach } from './breach.ts'
import type { KilnSpace, Load, LoadLevel, PlacedPost } from '../types.ts'

/** How far two posts above one another may be out of line, mm. */
const IN_LINE_MM = 1

/** Shelves in stock, inside and apart; posts in stock, three under each shelf, carried, in line and of the right length. */
export function furnitureBreaches(kiln: KilnSpace, load: Load): LoadBreach[] {
  return [
    ...stockBreaches(kiln, load),
    ...load.levels.flatMap((level, i) => [...shelfBreaches(kiln, level, i), ...postBreaches(kiln, load, level, i)]),
    ...overlapBreaches(kiln, load),
    ...levelHeightBreaches(kiln, load),
  ]
}

function stockBreaches(kiln: KilnSpace, load: Load): LoadBreach[] {
  const breaches: LoadBreach[] = []
  const tally = (ids: readonly string[]): Map<string, number> => {
    const counts = new Map<string, number>()
    for (const id of ids) counts.set(id, (counts.get(id) ?? 0) + 1)
    return counts
  }
  const shelves = tally(load.levels.flatMap((level) => level.shelves.map((shelf) => shelf.shelfId)))
  for (const [shelf, used] of shelves) {
    const stock = kiln.furniture.shelves.find((kind) => kind.id === shelf)?.count
    if (stock === undefined) breaches.push(breach('shelf-unknown', { shelf }))
    else if (used > stock) breaches.push(breach('shelf-count', { shelf, used, stock }))
  }
  const posts = tally(load.levels.flatMap((level) => level.posts.flatMap((post) => post.postIds)))
  for (const [post, used] of posts) {
    const stock = kiln.furniture.posts.find((kind) => kind.id === post)?.count
    if (stock === undefined) breaches.push(breach('post-unknown', { post }))
    else if (used > stock) breaches.push(breach('post-count', { post, used, stock }))
  }
  return breaches
}

function shelfBreaches(kiln: KilnSpace, level: LoadLevel, index: number): LoadBreach[] {
  const { keepOutMm } = kiln.clearances
  return shelvesOf(kiln, level).flatMap(([kind, shelf]) => {
    const breaches: LoadBreach[] = []
    const corners = shelfCorners(kind, shelf)
    const roomMm = Math.min(...corners.map((p) => wallRoomMm(kiln.chamber.shape, p)))
    const isHigh = level.zMm > kiln.chamber.heightMm || level.zMm < kind.thicknessMm
    if (roomMm < -1e-3 || isHigh) breaches.push(breach('shelf-outside', { level: index, shelf: kind.id, roomMm }))
    const outline: Placed = { hulls: [corners], radiusMm: 0 }
    for (const k of kiln.chamber.keepOuts) {
      const isBeside = level.zMm - kind.thicknessMm < k.toZMm + keepOutMm && level.zMm > k.fromZMm - keepOutMm
      const apartMm = isBeside ? distanceMm(outline, disc(k.xMm, k.yMm, k.radiusMm)) : Infinity
      if (apartMm < keepOutMm - 0.01) {
        breaches.push(
          breach('keep-out-too-close', { level: index, shelf: kind.id, keepOut: k.name, apartMm, keepOutMm }),
        )
      }
    }
    return breaches
  })
}

function postBreaches(kiln: KilnSpace, load: Load, level: LoadLevel, index: number): LoadBreach[] {
  const breaches = level.posts.flatMap((post) => onePostBreaches(kiln, load, level, index, post))
  for (const [kind, shelf] of shelvesOf(kiln, level)) {
    const under = level.posts.filter(
      (post) => shelfRoomMm(kind, shelf, post) >= Math.min(0, kiln.clearances.postInsetMm) - FORGIVEN_MM,
    ).length
    if (under < 3) breaches.push(breach('too-few-posts', { level: index, shelf: kind.id, posts: under }))
  }
  return breaches
}

function onePostBreaches(kiln: KilnSpace, load: Load, level: LoadLevel, index: number, post: PlacedPost): LoadBreach[] {
  const breaches: LoadBreach[] = []
  const { xMm, yMm } = post
  const lengths = post.postIds.map((id) => kiln.furniture.posts.find((kind) => kind.id === id)?.lengthMm ?? 0)
  const lengthMm = lengths.reduce((sum, length) => sum + length, 0)
  const shelves = shelvesOf(kiln, level)
  const undersides = shelves.map(([kind]) => level.zMm - kind.thicknessMm)
  const reachesMm = post.fromZMm + post.lengthMm
  const isRightLength = Math.abs(lengthMm - post.lengthMm) <= FORGIVEN_MM
  if (!isRightLength || undersides.some((z) => Math.abs(z - reachesMm) > FORGIVEN_MM)) {
    breaches.push(breach('post-length', { level: index, lengthMm, reachesMm }))
  }
  const roomMm = Math.max(...shelves.map(([kind, shelf]) => shelfRoomMm(kind, shelf, post)))
  const insetMm = kiln.clearances.postInsetMm
  if (roomMm < insetMm - 1e-3)
    breaches.push(breach('post-not-under-shelf', { level: index, xMm, yMm, roomMm, insetMm }))
  if (post.fromZMm === 0) return breaches
  const below = load.levels.find(
    (other) =>
      Math.abs(other.zMm - post.fromZMm) <= FORGIVEN_MM &&
      shelvesOf(kiln, other).some(([kind, shelf]) => shelfRoomMm(kind, shelf, post) >= 0),
  )
  if (below === undefined) return [...breaches, breach('post-not-carried', { level: index, xMm, yMm })]
  const isInLine = below.posts.some((other) => Math.hypot(other.xMm - xMm, other.yMm - yMm) <= IN_LINE_MM)
  return isInLine ? breaches : [...breaches, breach('post-not-in-line', { level: index, xMm, yMm })]
}

/** Shelves whose slabs share a height must not share floor. */
function overlapBreaches(kiln: KilnSpace, load: Load): LoadBreach[] {
  const slabs = load.levels.flatMap((level, i) =>
    shelvesOf(kiln, level).map(([kind, shelf]) => ({
      level: i,
      fromZMm: level.zMm - kind.thicknessMm,
      toZMm: level.zMm,
      outline: { hulls: [shelfCorners(kind, shelf)], radiusMm: 0 },
    })),
  )
  return slabs.flatMap((a, i) =>
    slabs.slice(i + 1).flatMap((b) => {
      const areBeside = a.fromZMm < b.toZMm - FORGIVEN_MM && b.fromZMm < a.toZMm - FORGIVEN_MM
      if (!areBeside || boxesApart(a.outline, b.outline) || distanceMm(a.outline, b.outline) >= -1e-3) return []
      return [breach('shelf-overlap', { level: a.level, other: b.level })]
    }),
  )
}

/** The pitch and usable height a level states, against the next level that stands on its posts, or the lid. */
function levelHeightBreaches(kiln: KilnSpace, load: Load): LoadBreach[] {
  const { headspaceMm, lidMm } = kiln.clearances
  return load.levels.flatMap((level, i) => {
    const above = load.levels.find((other) =>
      other.posts.some((post) => Math.abs(post.fromZMm - level.zMm) <= FORGIVEN_MM && isOn(kiln, level, post)),
    )
    const pitchMm = (above?.zMm ?? kiln.chamber.heightMm) - level.zMm
    const thickness = above === undefined ? 0 : Math.max(0, ...shelvesOf(kiln, above).map(([kind]) => kind.thicknessMm))
    const usableMm = above === undefined ? pitchMm - lidMm : pitchMm - thickness - headspaceMm
    const isRight = Math.abs(pitchMm - level.pitchMm) <= 1e-3 && Math.abs(usableMm - level.usableHeightMm) <= 1e-3
    return isRight ? [] : [breach('wrong-height', { level: i, pitchMm, statedMm: level.pitchMm })]
  })
}

const isOn = (kiln: KilnSpace, level: LoadLevel, post: PlacedPost): boolean =>
  shelvesOf(kiln, level).some(([kind, shelf]) => shelfRoomMm(kind, shelf, post) >= 0)
