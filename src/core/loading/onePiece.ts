import { oncePer } from './once.ts'
import { outlineOf } from './outline.ts'
import { chamberReachMm } from './region.ts'
import type { ChamberShape, KilnSpace, LoadItem, LoadKind, Reason, ShelfKind } from './types.ts'

/** Why one piece alone can never go in, or undefined. */
export function refutationOfOne(kiln: KilnSpace, item: LoadItem, kind: LoadKind): Reason | undefined {
  return unusableKiln(kiln) ?? tooLarge(clearOf(kiln), item, kind)
}

/** What the chamber offers one piece at most. */
export type Clear = {
  /** Ware height over the lowest shelf. */
  readonly heightMm: number
  readonly thinnestShelfMm: number
  readonly reachMm: number
  readonly inradiusMm: number
  /** Half the width of the widest shelf, from above. */
  readonly shelfMm: number
}

/** What an empty kiln offers. */
export const clearOf = oncePer(({ chamber, clearances, furniture }: KilnSpace): Clear => {
  const thinnestShelfMm = Math.min(...furniture.shelves.filter((s) => s.count > 0).map((s) => s.thicknessMm))
  const shortestMm = Math.min(...furniture.posts.filter((p) => p.count > 0).map((p) => p.lengthMm))
  return {
    heightMm: chamber.heightMm - shortestMm - thinnestShelfMm - clearances.lidMm,
    thinnestShelfMm,
    reachMm: chamberReachMm(chamber.shape, clearances.wallMm),
    inradiusMm: chamberInradiusMm(chamber.shape) - clearances.wallMm,
    shelfMm: widestShelfMm(furniture.shelves),
  }
})

/** Why no piece can ever go in. */
export function unusableKiln(kiln: KilnSpace): Reason | undefined {
  const { shelves, posts } = kiln.furniture
  if (!shelves.some((shelf) => shelf.count > 0)) return { code: 'no-shelves', params: {} }
  const postCount = posts.reduce((sum, post) => sum + Math.max(0, post.count), 0)
  if (postCount < 3) return { code: 'no-posts', params: { postCount } }
  return undefined
}

/** Why one piece cannot go in, for its sizes alone. */
export function tooLarge(clear: Clear, item: LoadItem, kind: LoadKind): Reason | undefined {
  if (!(item.heightMm > 0) || !(item.massKg >= 0) || !Number.isFinite(item.heightMm + item.massKg)) {
    return { code: 'piece-size-invalid', params: { piece: item.key, heightMm: item.heightMm, massKg: item.massKg } }
  }
  const heightMm = leastHeight(item, kind)
  if (heightMm > clear.heightMm) {
    return { code: 'piece-too-tall', params: { piece: item.key, heightMm, roomMm: clear.heightMm } }
  }
  const outline = outlineOf(item.footprint)
  const mayTip = kind === 'bisque' && item.stacking.onEdge !== undefined
  const isTooWide = outline.diameterMm > 2 * clear.reachMm || outline.inradiusMm > clear.inradiusMm
  const isWiderThanShelves = item.wholeShelf === true && outline.inradiusMm > clear.shelfMm
  if (mayTip || !(isTooWide || isWiderThanShelves)) return undefined
  return {
    code: 'piece-too-wide',
    params: { piece: item.key, widthMm: 2 * outline.inradiusMm, roomMm: 2 * clear.inradiusMm },
  }
}

/** Half the width of the widest shelf, from above. */
function widestShelfMm(shelves: readonly ShelfKind[]): number {
  const widths = shelves.map(({ shape }) => {
    if (shape.kind === 'rectangular') return Math.min(shape.lengthMm, shape.widthMm) / 2
    const radius = shape.kind === 'round' ? shape.diameterMm / 2 : shape.acrossFlatsMm / 2
    return shape.share === 'full' ? radius : radius * 0.87 // a wedge of a third holds a circle of 0.464 R, a half 0.5 R
  })
  return Math.max(...widths)
}

/** Height of a piece in its lowest pose. */
export const leastHeight = (item: LoadItem, kind: LoadKind): number =>
  kind === 'bisque' && item.stacking.onEdge !== undefined
    ? Math.min(item.heightMm, item.stacking.onEdge.heightMm)
    : item.heightMm

function chamberInradiusMm(shape: ChamberShape): number {
  switch (shape.kind) {
    case 'round':
      return shape.diameterMm / 2
    case 'many-sided':
      return shape.acrossFlatsMm / 2
    default:
      return Math.min(shape.lengthMm, shape.widthMm) / 2
  }
}
