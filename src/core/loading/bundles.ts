import { bundleOf, gapOf, type Bundle, type BundleMember } from './bundle.ts'
import type { KilnSpace, LoadItem, LoadKind } from './types.ts'

/** The bundles of a load. */
export function bundlesFor(items: readonly LoadItem[], kiln: KilnSpace, kind: LoadKind): Bundle[] {
  return singleBundles(items, gapOf(kiln, kind))
}

/** Every piece on its own, lids on their pots. */
function singleBundles(items: readonly LoadItem[], gapMm: number): Bundle[] {
  const pots = new Map(items.map((item) => [item.key, item]))
  const lids = new Map<string, LoadItem>()
  for (const item of items) {
    if (item.lidOf !== undefined && pots.has(item.lidOf) && !lids.has(item.lidOf)) lids.set(item.lidOf, item)
  }
  return items
    .filter((item) => item.lidOf === undefined || lids.get(item.lidOf) !== item)
    .map((item) => bundleOf([standing(item), ...lidOn(item, lids.get(item.key))], gapMm))
}

function standing(item: LoadItem): BundleMember {
  return { item, pose: 'upright', dxMm: 0, dyMm: 0, dzMm: 0, turn: 0 }
}

function lidOn(pot: LoadItem, lid: LoadItem | undefined): BundleMember[] {
  if (lid === undefined) return []
  return [{ ...standing(lid), dzMm: pot.heightMm, onTopOf: { key: pot.key, how: 'lid' } }]
}
