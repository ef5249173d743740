/** How full a kiln is: the height that its levels take, of the height there is. Quick, and told apart from packing. */
import type { FiringKind } from '#core/firing/types.ts'
import { bundlesFor, pilingsFor } from '#core/loading/bundles.ts'
import type { KilnSpace, ShelfKind } from '#core/loading/types.ts'
import type { SizeGoingIn } from './pieces.ts'

/** Share of a shelf that outlines of mixed ware take before the next level is begun. Our choice, by trial with the packer. */
const SHELF_TAKEN = { bisque: 0.72, glaze: 0.62 } as const

export type SizedPieces = { readonly size: SizeGoingIn; readonly count: number }

/**
 * Levels filled by height, the tallest first, as shelves allow by area alone; bisque in piles where its designs allow
 * them, in the way that takes least height.
 * @returns 0 for an empty kiln, 1 for a full one, more where the pieces would not all go in
 */
export function fillOf(space: KilnSpace, kind: FiringKind, pieces: readonly SizedPieces[]): number {
  const shelf = largestShelf(space)
  if (!shelf) return Number.POSITIVE_INFINITY
  const ways = mayPile(pieces, kind) ? piledWays(space, pieces) : [apart(space, kind, pieces)]
  const takenMm = Math.min(...ways.map((standing) => takenHeightMm(space, shelf, kind, standing)))
  return takenMm / space.chamber.heightMm
}

/** What stands on a shelf as one: a piece, or a pile. */
type Standing = { readonly areaMm2: number; readonly heightMm: number; readonly count: number }

function takenHeightMm(
  { clearances, furniture }: KilnSpace,
  shelf: ShelfKind,
  kind: FiringKind,
  standing: readonly Standing[],
): number {
  const levelMm2 = SHELF_TAKEN[kind] * shelfMm2(shelf)
  const posts = furniture.posts.map(({ lengthMm }) => lengthMm).toSorted((a, b) => a - b)
  let leftMm2 = 0
  let takenMm = 0
  for (const { areaMm2, heightMm, count } of standing.toSorted((a, b) => b.heightMm - a.heightMm)) {
    for (let i = 0; i < count; i++) {
      if (leftMm2 < areaMm2) {
        const neededMm = heightMm + clearances.headspaceMm
        takenMm += (posts.find((lengthOfPost) => lengthOfPost >= neededMm) ?? neededMm) + shelf.thicknessMm
        leftMm2 += levelMm2
      }
      leftMm2 -= areaMm2
    }
  }
  return takenMm
}

function apart({ clearances }: KilnSpace, kind: FiringKind, pieces: readonly SizedPieces[]): Standing[] {
  const gapMm = kind === 'glaze' ? clearances.glazeGapMm : clearances.bisqueGapMm
  return pieces.map(({ count, size: { lengthMm, widthMm, heightMm, outlineShare } }) => {
    return { areaMm2: outlineShare * (lengthMm + gapMm) * (widthMm + gapMm), heightMm, count }
  })
}

function mayPile(pieces: readonly SizedPieces[], kind: FiringKind): boolean {
  if (kind === 'glaze') return false
  return pieces.some(({ size: { stacking } }) => stacking.maxAbove > 0 || stacking.onEdge !== undefined)
}

/** The pieces as the packer would bundle them, one way and another. */
function piledWays(space: KilnSpace, pieces: readonly SizedPieces[]): Standing[][] {
  const items = pieces.flatMap(({ size: { footprint, heightMm, massKg, stacking }, count }, i) => {
    const piece = { footprint, heightMm, massKg, stacking, mustGo: true, rotation: 'any' } as const
    return Array.from({ length: count }, (_, k) => ({ ...piece, key: `${i}#${k}` }))
  })
  return pilingsFor(items, 'bisque').map((piling) =>
    bundlesFor(items, space, 'bisque', piling).map(({ areaMm2, heightMm }) => ({ areaMm2, heightMm, count: 1 })),
  )
}

function largestShelf({ furniture }: KilnSpace): ShelfKind | undefined {
  const whole = furniture.shelves.filter(({ count }) => count > 0)
  return whole.toSorted((a, b) => shelfMm2(b) - shelfMm2(a))[0]
}

/** The area of a whole level of this kind of shelf: halves lie in pairs. */
function shelfMm2({ shape }: ShelfKind): number {
  switch (shape.kind) {
    case 'round':
      return (Math.PI / 4) * shape.diameterMm ** 2
    case 'many-sided':
      return (shape.sides / 4) * shape.acrossFlatsMm ** 2 * Math.tan(Math.PI / shape.sides)
    case 'rectangular':
      return (
        shape.lengthMm *
        shape.widthMm *
        (shape.share === 'half' ? 2 : shape.share === 'third' ? 3 : shape.share === 'quarter' ? 4 : 1)
      )
  }
}
