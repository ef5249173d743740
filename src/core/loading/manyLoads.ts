/** As few loads of several kilns as are found. */
import type { Rng } from '#core/rng.ts'
import type { Bundle } from './bundle.ts'
import { bundlesFor, pilingsFor } from './bundles.ts'
import { bestOf } from './construct.ts'
import { oneFewer, wareIn } from './fewerLoads.ts'
import { withWholeGroups } from './groups.ts'
import type { Layout, Packing } from './layout.ts'
import { promisingWays } from './promising.ts'
import { refilled } from './refill.ts'
import type { LoadItem, LoadKind, Reason } from './types.ts'
import { bundlesIn } from './units.ts'

/** A kiln while loads are made for it. */
export type LoadedKiln = {
  readonly packing: Packing
  /** Keys of pieces that it does not take, with reasons. */
  readonly whyNot: ReadonlyMap<string, Reason>
  loadsLeft: number
  layouts: Layout[]
}

/** Ways tried and levels filled anew in each load while loads are first built. */
const FIRST_WAYS = 6
const FIRST_REFILLS = 20

/**
 * Gives each kiln its layouts: the fullest load of any kiln first, then ever fewer.
 * @param rounds of ruin and recreate at most
 * @returns keys of what found no room
 */
export function layoutsFor(
  kilns: readonly LoadedKiln[],
  items: readonly LoadItem[],
  kind: LoadKind,
  atLeast: number,
  rounds: number,
  rng: Rng,
): string[] {
  const rest = firstLayouts(kilns, items, kind, rng)
  const isLeast = (): boolean => kilns.reduce((sum, { layouts }) => sum + layouts.length, 0) <= atLeast
  let left = rounds
  for (const kiln of kilns) {
    while (!isLeast() && kiln.layouts.length > 1 && left > 0) {
      const result = oneFewer(kiln.packing, kiln.layouts, kind, left, rng)
      left -= result.rounds
      if (result.layouts === undefined) break
      kiln.layouts = result.layouts
    }
    if (kilns.length > 1) left = Math.max(left, Math.floor(rounds / kilns.length))
  }
  while (!isLeast() && kilns.length > 1 && movedElsewhere(kilns, kind, Math.floor(rounds / kilns.length), rng));
  return rest.map(({ key }) => key)
}

/** One full load after another; in a single kiln what is left stays in the piles it was in. */
function firstLayouts(kilns: readonly LoadedKiln[], items: readonly LoadItem[], kind: LoadKind, rng: Rng): LoadItem[] {
  let rest = items
  while (rest.length > 0) {
    const open = kilns.filter(({ layouts, loadsLeft }) => layouts.length < loadsLeft)
    const filled = open.flatMap((kiln) => {
      const taken = rest.filter(({ key }) => !kiln.whyNot.has(key))
      const layout = taken.length === 0 ? undefined : fullestLayout(kiln.packing, taken, kind, rng)
      return layout === undefined
        ? []
        : [{ kiln, layout, takesAll: layout.out.length === 0 && taken.length === rest.length }]
    })
    const best = filled.reduce<(typeof filled)[number] | undefined>((a, b) => (a && !isBetter(b, a) ? a : b), undefined)
    if (best === undefined) break
    best.kiln.layouts.push({ ...best.layout, out: [] })
    const inside = new Set(itemsIn(best.layout).map(({ key }) => key))
    rest = rest.filter(({ key }) => !inside.has(key))
  }
  return [...rest]
}

type Filled = { readonly kiln: LoadedKiln; readonly layout: Layout; readonly takesAll: boolean }

/** All that is left in one load before anything else, then in the smallest kiln; else the most ware. */
function isBetter(a: Filled, b: Filled): boolean {
  if (a.takesAll !== b.takesAll) return a.takesAll
  return a.takesAll ? roomOf(a.kiln) < roomOf(b.kiln) : wareIn(a.layout) > wareIn(b.layout)
}

const roomOf = ({ packing: { plan } }: LoadedKiln): number =>
  plan.kiln.chamber.heightMm * (plan.arrangements[0]?.columns.reduce((sum, { areaMm2 }) => sum + areaMm2, 0) ?? 0)

function fullestLayout(packing: Packing, items: readonly LoadItem[], kind: LoadKind, rng: Rng): Layout | undefined {
  const bundles: readonly Bundle[] = bundlesFor(items, packing.plan.kiln, kind, pilingsFor(items, kind)[0]!)
  const ways = promisingWays(packing.plan, packing.plan.arrangements.slice(0, 2), [bundles], FIRST_WAYS)
  const first = bestOf(packing, ways, rng)
  const better = first && withWholeGroups(packing, refilled(packing, first, FIRST_REFILLS, rng), rng)
  return better !== undefined && better.levels.length > 0 ? better : undefined
}

/** The emptiest load of all, taken in by the loads of another kiln; false when none takes it. */
function movedElsewhere(kilns: readonly LoadedKiln[], kind: LoadKind, rounds: number, rng: Rng): boolean {
  const all = kilns.flatMap((kiln) => kiln.layouts.map((layout) => ({ kiln, layout, wareMm3: wareIn(layout) })))
  const emptiest = all.reduce((a, b) => (b.wareMm3 < a.wareMm3 ? b : a))
  const loose = itemsIn(emptiest.layout)
  for (const kiln of kilns) {
    if (kiln === emptiest.kiln || kiln.layouts.length === 0) continue
    if (loose.some(({ key }) => kiln.whyNot.has(key))) continue
    const trial: LoadedKiln = { ...kiln, layouts: [] }
    const items = [...loose, ...kiln.layouts.flatMap(itemsIn)]
    const rest = layoutsFor([trial], items, kind, kiln.layouts.length, rounds, rng)
    if (rest.length > 0 || trial.layouts.length > kiln.layouts.length) continue
    kiln.layouts = trial.layouts
    emptiest.kiln.layouts = emptiest.kiln.layouts.filter((layout) => layout !== emptiest.layout)
    return true
  }
  return false
}

const itemsIn = (layout: Layout): LoadItem[] =>
  bundlesIn(layout).flatMap(({ members }) => members.map(({ item }) => item))
