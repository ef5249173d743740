/** How full a kiln is: the height that its levels take, of the height there is. Quick, and told apart from packing. */
import type { FiringKind } from '#core/firing/types.ts'
import type { KilnSpace, ShelfKind } from '#core/loading/types.ts'
import type { SizeGoingIn } from './pieces.ts'

/** Share of a shelf that outlines of mixed ware take before the next level is begun. Our choice, by trial with the packer. */
const SHELF_TAKEN = { bisque: 0.72, glaze: 0.62 } as const

export type SizedPieces = { readonly size: SizeGoingIn; readonly count: number }

/**
 * Levels filled by height, the tallest first, as shelves allow by area alone.
 * @returns 0 for an empty kiln, 1 for a full one, more where the pieces would not all go in
 */
export function fillOf(space: KilnSpace, kind: FiringKind, pieces: readonly SizedPieces[]): number {
  const shelf = largestShelf(space)
  if (!shelf) return Number.POSITIVE_INFINITY
  const levelMm2 = SHELF_TAKEN[kind] * shelfMm2(shelf)
  const { clearances, chamber, furniture } = space
  const gapMm = kind === 'glaze' ? clearances.glazeGapMm : clearances.bisqueGapMm
  const posts = furniture.posts.map(({ lengthMm }) => lengthMm).toSorted((a, b) => a - b)
  let leftMm2 = 0
  let takenMm = 0
  for (const { count, size } of pieces.toSorted((a, b) => b.size.heightMm - a.size.heightMm)) {
    const { lengthMm, widthMm, heightMm, outlineShare } = size
    const pieceMm2 = outlineShare * (lengthMm + gapMm) * (widthMm + gapMm)
    for (let i = 0; i < count; i++) {
      if (leftMm2 < pieceMm2) {
        const neededMm = heightMm + clearances.headspaceMm
        takenMm += (posts.find((lengthOfPost) => lengthOfPost >= neededMm) ?? neededMm) + shelf.thicknessMm
        leftMm2 += levelMm2
      }
      leftMm2 -= pieceMm2
    }
  }
  return takenMm / chamber.heightMm
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
