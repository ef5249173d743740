/** A stack of shelves from the side, to scale, in mm: seen along the width, the floor at 0 and up as in the kiln. */
import {
  ANGLE_STEPS,
  type Footprint,
  type KilnSpace,
  type Load,
  type LoadLevel,
  type PlacedPost,
  type Placement,
} from '#core/loading/types.ts'
import { shelfSpan } from './drawing.ts'

export type Box = {
  readonly key: string
  readonly kind: 'post' | 'shelf' | 'piece'
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
}

export type Sized = { readonly footprint: Footprint; readonly heightMm: number }

/** Posts, then ware, then shelves: what lies in front is drawn last. @param sizeOf undefined: nothing is known of the piece */
export function sideOf(load: Load, space: KilnSpace, sizeOf: (placement: Placement) => Sized | undefined): Box[] {
  const { shelves, posts } = space.furniture
  return load.levels.flatMap((level, i) => [
    ...level.posts.map(({ xMm, fromZMm, lengthMm, postIds }, j): Box => {
      const half = (posts.find(({ id }) => id === postIds[0])?.sizeMm ?? 0) / 2
      const box = { fromMm: xMm - half, toMm: xMm + half, lowMm: fromZMm, highMm: fromZMm + lengthMm }
      return { key: `post ${i} ${j}`, kind: 'post', ...box }
    }),
    ...level.placements.flatMap((placement): Box[] => {
      const { key, xMm, angleIndex, zMm } = placement
      const size = sizeOf(placement)
      if (!size) return []
      const { fromMm, toMm } = spanAt(size.footprint, angleIndex)
      return [{ key, kind: 'piece', fromMm: xMm + fromMm, toMm: xMm + toMm, lowMm: zMm, highMm: zMm + size.heightMm }]
    }),
    ...level.shelves.flatMap(({ shelfId, ...placed }, j): Box[] => {
      const kind = shelves.find(({ id }) => id === shelfId)
      if (!kind) return []
      const span = shelfSpan(kind.shape, placed)
      return [
        { key: `shelf ${i} ${j}`, kind: 'shelf', ...span, lowMm: level.zMm - kind.thicknessMm, highMm: level.zMm },
      ]
    }),
  ])
}

/** How far an outline reaches along the length, turned as it stands. */
export function spanAt(
  { hulls, radiusMm }: Footprint,
  angleIndex: number,
): { readonly fromMm: number; readonly toMm: number } {
  const angle = (angleIndex / ANGLE_STEPS) * 2 * Math.PI
  const across = hulls.flatMap((hull) => hull.map(({ xMm, yMm }) => xMm * Math.cos(angle) - yMm * Math.sin(angle)))
  return { fromMm: Math.min(...across) - radiusMm, toMm: Math.max(...across) + radiusMm }
}

/** What stands on the floor or a shelf, or passes through: posts that hold room on a level. */
export const postsThrough = (load: Load, level: LoadLevel): PlacedPost[] =>
  load.levels
    .flatMap(({ posts }) => posts)
    .filter(({ fromZMm, lengthMm }) => fromZMm <= level.zMm + 1 && fromZMm + lengthMm > level.zMm + 1)
