/** What a simple program would do: the tallest first, each at the first level that takes it. */
import { gapOf, type Bundle } from '#core/loading/bundle.ts'
import { bundlesFor } from '#core/loading/bundles.ts'
import type { Arrangement } from '#core/loading/arrangements.ts'
import { kilnPlanOf } from '#core/loading/kilnPlan.ts'
import { closes, emptyLevel, placeOn, type Layout, type Packing } from '#core/loading/layout.ts'
import type { KilnSpace, LoadItem } from '#core/loading/types.ts'

/** Firings that height-sorted first fit of the true outlines needs, by the best way of furnishing the kiln. */
export function firstFitFirings(kiln: KilnSpace, items: readonly LoadItem[]): number {
  const plan = kilnPlanOf(kiln)
  const packing: Packing = { plan, gapMm: gapOf(kiln, 'glaze'), anglesPerTurn: 4, fullShare: 2 }
  const bundles = bundlesFor(items, kiln, 'glaze', 'apart').toSorted((a, b) => b.heightMm - a.heightMm)
  return Math.min(...plan.arrangements.slice(0, 2).map((arrangement) => firingsIn(packing, arrangement, bundles)))
}

function firingsIn(packing: Packing, arrangement: Arrangement, bundles: readonly Bundle[]): number {
  const layouts: Layout[] = []
  for (const bundle of bundles) {
    if (layouts.some((layout) => goesIn(packing, layout, bundle))) continue
    const layout: Layout = { arrangement, levels: [], out: [] }
    layouts.push(layout)
    goesIn(packing, layout, bundle)
  }
  return layouts.length
}

function goesIn(packing: Packing, layout: Layout, bundle: Bundle): boolean {
  const { arrangement, levels } = layout
  const isOn = levels.some((level) => level.heightMm >= bundle.heightMm && placeOn(packing, arrangement, level, bundle))
  if (isOn) return true
  for (let column = 0; column < arrangement.columns.length; column++) {
    const { shelfKind, shelves } = arrangement.columns[column]!
    const used = levels.reduce((sum, level) => sum + arrangement.columns[level.column]!.shelves.length, 0)
    if (used + shelves.length > shelfKind.count) continue
    const isTop = !levels.some((level) => level.column === column)
    const level = emptyLevel(column, isTop, 0)
    if (!placeOn(packing, arrangement, level, bundle)) continue
    levels.push(level)
    if (closes(packing, layout)) return true
    levels.pop()
  }
  return false
}
