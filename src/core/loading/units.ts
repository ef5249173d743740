import type { Rng } from '#core/rng.ts'
import type { Bundle } from './bundle.ts'
import { groupsIn } from './groups.ts'
import { copyOf, place, withStands, type Layout, type Packing } from './layout.ts'

/** Bundles that go in one load together or not at all: a set, or one bundle of its own. */
export type Unit = { readonly bundles: readonly Bundle[]; readonly wareMm3: number; readonly urgency: number }

export function unitsOf(bundles: readonly Bundle[]): Unit[] {
  const sets = new Map<string, Bundle[]>()
  const units: Unit[] = []
  for (const bundle of bundles) {
    const [group] = groupsIn(bundle)
    if (group === undefined) units.push(unitOf([bundle]))
    else sets.set(group, [...(sets.get(group) ?? []), bundle])
  }
  for (const set of sets.values()) units.push(unitOf(set))
  return units
}

function unitOf(bundles: readonly Bundle[]): Unit {
  return {
    bundles,
    wareMm3: bundles.reduce((sum, bundle) => sum + bundle.wareMm3, 0),
    urgency: Math.max(...bundles.map((bundle) => bundle.urgency)),
  }
}

/** A layout with the whole unit besides, or undefined; the given layout is left as it was. */
export function placeUnit(packing: Packing, layout: Layout, unit: Unit, rng: Rng): Layout | undefined {
  const next: Layout = { ...layout, levels: layout.levels.map(copyOf) }
  for (const bundle of unit.bundles) if (!place(packing, next, bundle, rng)) return undefined
  return next
}

/** The layout less some of its bundles. */
export function withoutBundles(layout: Layout, taken: ReadonlySet<Bundle>): Layout {
  const levels = layout.levels
    .map((level) => {
      const kept = level.stands.filter((stand) => !taken.has(stand.bundle))
      return kept.length === level.stands.length ? copyOf(level) : withStands(level, kept)
    })
    .filter((level) => level.stands.length > 0)
  return { ...layout, levels }
}

export const bundlesIn = (layout: Layout): Bundle[] =>
  layout.levels.flatMap((level) => level.stands.map((stand) => stand.bundle))
