import { massBreaches, pieceBreaches } from './check/counts.ts'
import { distanceBreaches } from './check/distances.ts'
import { furnitureBreaches } from './check/furniture.ts'
import { standingPieces } from './check/pieces.ts'
import { pileBreaches } from './check/piles.ts'
import type { LoadBreach } from './check/breach.ts'
import type { KilnSpace, Load, LoadItem, LoadKind } from './types.ts'

/**
 * Everything that is wrong with a load; empty when it can be stacked as drawn. Shares nothing with the packer but the
 * types: its geometry, heights and counts are its own. Distances are forgiven a nanometre.
 */
export function checkLoad(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind, load: Load): LoadBreach[] {
  const asked = { ...load, kind }
  const standing = standingPieces(items, asked)
  return [
    ...pieceBreaches(items, asked, standing),
    ...massBreaches(kiln, asked, standing),
    ...furnitureBreaches(kiln, asked),
    ...distanceBreaches(kiln, asked, standing),
    ...pileBreaches(kiln, asked, standing),
  ]
}
