import { massBreaches, turnBreaches } from './check/counts.ts'
import { gapBreaches, placeBreaches } from './check/distances.ts'
import { standingPieces } from './check/pieces.ts'
import { pileBreaches } from './check/piles.ts'
import { withPieceMoved, type PieceSpot } from './moved.ts'
import type { LoadBreach } from './check/breach.ts'
import type { KilnSpace, Load, LoadItem, LoadKind } from './types.ts'

/**
 * What is wrong with setting one piece, and all that stands on or in it, down at another spot; empty when it may stand
 * there. By the checker's geometry, for the moved pieces only, so that it keeps up with a drag.
 * @throws RangeError when the load has no such piece or level
 */
export function spotProblems(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  load: Load,
  spot: PieceSpot,
): LoadBreach[] {
  const { load: asked, moved } = withPieceMoved({ ...load, kind }, spot)
  const standing = standingPieces(items, asked)
  const own = standing.filter((piece) => moved.has(piece.item.key))
  const others = standing.filter((piece) => !moved.has(piece.item.key))
  return [
    ...turnBreaches(own),
    ...massBreaches(kiln, asked, standing),
    ...own.flatMap((piece) => [
      ...gapBreaches(kiln, asked, piece, others, standing),
      ...placeBreaches(kiln, asked, piece),
    ]),
    ...pileBreaches(kiln, asked, standing, own),
  ]
}
