import { bundleOf, gapOf, type Bundle, type Piling } from './bundle.ts'
import { pilesOf } from './piles.ts'
import type { KilnSpace, LoadItem, LoadKind } from './types.ts'

/** Ways of piling worth trying, the one that takes least floor first. */
export function pilingsFor(items: readonly LoadItem[], kind: LoadKind): Piling[] {
  if (kind === 'glaze') return ['apart']
  const mayPile = items.some(({ stacking }) => stacking.maxAbove > 0 && stacking.maxMassAboveKg > 0)
  return mayPile || items.some(({ stacking }) => stacking.onEdge) ? ['piled', 'nested', 'apart'] : ['apart']
}

/**
 * The bundles of a load: lids on their pots; in a bisque load besides, smaller ware in larger, rims on rims, foot over
 * foot, flat on flat, and flats on edge, as each design allows.
 */
export function bundlesFor(items: readonly LoadItem[], kiln: KilnSpace, kind: LoadKind, piling: Piling): Bundle[] {
  const gapMm = gapOf(kiln, kind)
  return pilesOf(items, kiln, piling).map((pile) => bundleOf(pile.members, gapMm))
}
