import type { Rng } from '#core/rng.ts'
import type { Bundle } from './bundle.ts'
import { bundlesFor } from './bundles.ts'
import { closes, place, type Layout, type Packing } from './layout.ts'
import { orders } from './orders.ts'
import type { LoadKind } from './types.ts'
import { bundlesIn, placeUnit, unitsOf, withoutBundles, type Unit } from './units.ts'

const MEMORY = 40
/** How often ware that was taken out is piled anew, which may split piles. */
const PILED_ANEW = 0.15
/** Units left out that are tried in one round at most, those of most ware first. */
const MOST_TRIED = 30

/**
 * The same ware in one load fewer, if it is found: the emptiest load is dissolved, and its ware is an excluded set that
 * ruin and recreate in the other loads makes smaller, by outline times height, until nothing is excluded.
 * @param rounds at most; `rounds` of the result says how many were used
 * @see Burke & Bykov (2017), late acceptance hill climbing; arXiv 2508.19306 for the excluded set
 */
export function oneFewer(
  packing: Packing,
  layouts: readonly Layout[],
  kind: LoadKind,
  rounds: number,
  rng: Rng,
): { layouts: Layout[] | undefined; rounds: number } {
  const emptiest = layouts.reduce((a, b) => (wareIn(b) < wareIn(a) ? b : a))
  const kept = layouts.filter((layout) => layout !== emptiest)
  let excluded = unitsOf(bundlesIn(emptiest))
  let cost = costOf(excluded)
  const past = new Float64Array(MEMORY).fill(cost)
  for (let round = 0; round < rounds; round++) {
    const at = rng.int(kept.length)
    const candidate = recreated(packing, kept[at]!, excluded, kind, rng)
    const next = closes(packing, candidate.layout) ? costOf(candidate.excluded) : Infinity
    const slot = round % MEMORY
    if (next <= cost || next <= past[slot]!) {
      kept[at] = candidate.layout
      excluded = candidate.excluded
      cost = next
    }
    past[slot] = cost
    if (excluded.length === 0) return { layouts: kept, rounds: round + 1 }
  }
  return { layouts: undefined, rounds }
}

type Candidate = { readonly layout: Layout; readonly excluded: Unit[] }

function recreated(packing: Packing, layout: Layout, excluded: readonly Unit[], kind: LoadKind, rng: Rng): Candidate {
  const taken = ruined(layout, rng)
  let next = withoutBundles(layout, new Set(taken))
  let pool = [...excluded, ...unitsOf(taken)]
  if (kind === 'bisque' && rng.next() < PILED_ANEW) pool = piledAnew(packing, pool, kind, rng)
  const order = orders[rng.int(orders.length)]!
  const noise = new Map(pool.map((unit) => [unit, 1 + 0.3 * (rng.next() - 0.5)]))
  const isByWare = rng.int(3) === 0
  const ranked = pool
    .sort((a, b) => b.wareMm3 * noise.get(b)! - a.wareMm3 * noise.get(a)!)
    .map((unit, rank) => ({ unit, isTried: rank < MOST_TRIED + taken.length }))
  const tried = ranked.filter(({ isTried }) => isTried).map(({ unit }) => unit)
  if (!isByWare) tried.sort((a, b) => order(a.bundles[0]!, b.bundles[0]!))
  const out = ranked.filter(({ isTried }) => !isTried).map(({ unit }) => unit)
  for (const unit of tried) {
    if (unit.bundles.length === 1) {
      if (!place(packing, next, unit.bundles[0]!, rng)) out.push(unit)
      continue
    }
    const placed = placeUnit(packing, next, unit, rng)
    if (placed === undefined) out.push(unit)
    else next = placed
  }
  return { layout: next, excluded: out }
}

/** Ware of one or two levels, all of it or a share, with the rest of the sets it belongs to. */
function ruined(layout: Layout, rng: Rng): Bundle[] {
  const taken = new Set<Bundle>()
  const count = Math.min(layout.levels.length, 1 + rng.int(2))
  const share = 0.3 + 0.9 * rng.next()
  for (let k = 0; k < count; k++) {
    const level = layout.levels[rng.int(layout.levels.length)]!
    for (const { bundle } of level.stands) if (rng.next() < share) taken.add(bundle)
  }
  for (const { bundles } of unitsOf(bundlesIn(layout))) {
    if (bundles.length > 1 && bundles.some((bundle) => taken.has(bundle))) for (const own of bundles) taken.add(own)
  }
  return [...taken]
}

function piledAnew(packing: Packing, pool: readonly Unit[], kind: LoadKind, rng: Rng): Unit[] {
  const items = pool.flatMap(({ bundles }) => bundles.flatMap(({ members }) => members.map(({ item }) => item)))
  const piling = (['apart', 'nested', 'piled'] as const)[rng.int(3)]!
  return unitsOf(bundlesFor(items, packing.plan.kiln, kind, piling))
}

const costOf = (units: readonly Unit[]): number => units.reduce((sum, { wareMm3 }) => sum + wareMm3, 0)

export const wareIn = (layout: Layout): number => bundlesIn(layout).reduce((sum, { wareMm3 }) => sum + wareMm3, 0)
