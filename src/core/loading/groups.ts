import type { Rng } from '#core/rng.ts'
import type { Bundle } from './bundle.ts'
import { place, withStands, type Layout, type Packing } from './layout.ts'

/** Takes out what is left of groups that did not all go in, and offers the room to the others. */
export function withWholeGroups(packing: Packing, layout: Layout, rng: Rng): Layout {
  const split = new Set(layout.out.flatMap(groupsIn))
  if (split.size === 0) return layout
  const isSplit = (bundle: Bundle): boolean => groupsIn(bundle).some((group) => split.has(group))
  const removed = layout.levels.flatMap((level) => level.stands.map((stand) => stand.bundle).filter(isSplit))
  if (removed.length === 0) return layout
  const levels = layout.levels
    .map((level) =>
      withStands(
        level,
        level.stands.filter((stand) => !isSplit(stand.bundle)),
      ),
    )
    .filter((level) => level.stands.length > 0)
  const next: Layout = { arrangement: layout.arrangement, levels, out: [...removed, ...layout.out.filter(isSplit)] }
  for (const bundle of layout.out) {
    if (!isSplit(bundle) && (groupsIn(bundle).length > 0 || !place(packing, next, bundle, rng))) next.out.push(bundle)
  }
  return next
}

/** Groups whose members are in the bundle. */
export const groupsIn = (bundle: Bundle): string[] =>
  bundle.members.flatMap(({ item }) => (item.group === undefined ? [] : [item.group]))
