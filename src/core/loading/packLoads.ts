import { seededRng, type Rng } from '#core/rng.ts'
import { assembledLoad } from './assemble.ts'
import { fewestLoads } from './bounds.ts'
import { gapOf, type Bundle } from './bundle.ts'
import { bundlesFor, pilingsFor } from './bundles.ts'
import { canonicalItems, withKeys } from './canonical.ts'
import { leftOutFor, mustGoItems } from './choice.ts'
import { bestOf } from './construct.ts'
import { evened } from './evenness.ts'
import { oneFewer } from './fewerLoads.ts'
import { withWholeGroups } from './groups.ts'
import { heatClasses } from './heatClasses.ts'
import { kilnPlanOf } from './kilnPlan.ts'
import type { Layout, Packing } from './layout.ts'
import { refutationOfOne } from './onePiece.ts'
import { promisingWays } from './promising.ts'
import { refilled } from './refill.ts'
import type { KilnSpace, LeftOut, Load, LoadItem, LoadKind } from './types.ts'
import { placeUnit, unitsOf } from './units.ts'

/** Several loads of one kiln, and what goes in none of them. */
export type PackedLoads = {
  readonly loads: readonly Load[]
  /** Pieces that no load takes, with reasons, and fillers for which no room was left. */
  readonly leftOut: readonly LeftOut[]
  /** Loads that the must-go pieces need at least: proved. */
  readonly atLeast: number
}

export type PackingEffort = {
  readonly seed: number
  /** Rounds of ruin and recreate in all; 0: the first loads found. */
  readonly iterations: number
}

/** Ways tried and levels filled anew in each load while loads are first built. */
const FIRST_WAYS = 6
const FIRST_REFILLS = 20

/**
 * Every must-go piece in as few loads of the kiln as are found, then fillers where room is left, then loads evened by
 * mass and height. Sets stay together, and pieces share a load only if one peak suits them all. Depends on sizes,
 * kind, seed and iterations alone.
 */
export function packLoads(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  { seed, iterations }: PackingEffort,
): PackedLoads {
  const canonical = canonicalItems(items, new Map())
  const must = new Set(mustGoItems(canonical.items))
  const { going, leftOut } = possibleItems(kiln, canonical.items, kind)
  const wanted = going.filter((item) => must.has(item)).map((item) => ({ ...item, mustGo: true }))
  const fillers = going.filter((item) => !must.has(item))
  const plan = kilnPlanOf(kiln)
  const packing: Packing = { plan, gapMm: gapOf(kiln, kind), anglesPerTurn: 8, fullShare: 1.1 }
  const rng = seededRng(seed)
  const { classes, unsuited } = heatClasses(wanted, fillers)
  const loads: Load[] = []
  const unplaced: LeftOut[] = unsuited.map(({ key }) => leftOutFor(key, 'firing-ranges-apart'))
  for (const heat of classes) {
    const atLeast = fewestLoads(kiln, heat.wanted, kind)
    const rounds = Math.floor((iterations * heat.wanted.length) / Math.max(1, wanted.length))
    const layouts = layoutsFor(packing, heat.wanted, kind, atLeast, rounds, rng)
    const filled = withFillers(packing, layouts.layouts, heat.fillers, kind, rng)
    for (const layout of evened(packing, filled.layouts, rng)) loads.push(assembledLoad(packing, layout, kind, [])!)
    unplaced.push(...[...layouts.out, ...filled.out].map((key) => leftOutFor(key, 'no-room')))
  }
  return {
    loads: loads.map((load) => withKeys(load, canonical.keys)),
    leftOut: [...leftOut, ...unplaced].map((left) => ({ ...left, key: canonical.keys[Number(left.key)]! })),
    atLeast: classes.reduce((most, heat) => Math.max(most, fewestLoads(kiln, heat.wanted, kind)), 0),
  }
}

/** Pieces that go in an empty kiln, with the rest of their set. */
function possibleItems(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
): { going: LoadItem[]; leftOut: LeftOut[] } {
  const leftOut: LeftOut[] = []
  const lost = new Set<string>()
  for (const item of items) {
    const reason = refutationOfOne(kiln, item, kind)
    if (reason === undefined) continue
    leftOut.push({ key: item.key, reason })
    lost.add(item.key)
  }
  const groups = new Set(items.filter(({ key }) => lost.has(key)).map(({ group }) => group))
  for (const item of items) {
    if (lost.has(item.key)) continue
    const isInLostGroup = item.group !== undefined && groups.has(item.group)
    if (!isInLostGroup && (item.lidOf === undefined || !lost.has(item.lidOf))) continue
    leftOut.push(leftOutFor(item.key, isInLostGroup ? 'group-left-out' : 'pot-left-out'))
    lost.add(item.key)
  }
  return { going: items.filter(({ key }) => !lost.has(key)), leftOut }
}

function layoutsFor(
  packing: Packing,
  items: readonly LoadItem[],
  kind: LoadKind,
  atLeast: number,
  rounds: number,
  rng: Rng,
): { layouts: Layout[]; out: string[] } {
  const [piling] = pilingsFor(items, kind)
  const first = firstLayouts(packing, bundlesFor(items, packing.plan.kiln, kind, piling!), rng)
  let { layouts } = first
  let left = rounds
  while (layouts.length > atLeast && layouts.length > 1 && left > 0) {
    const result = oneFewer(packing, layouts, kind, left, rng)
    left -= result.rounds
    if (result.layouts === undefined) break
    layouts = result.layouts
  }
  return { layouts, out: first.rest.flatMap((bundle) => bundle.members.map(({ item }) => item.key)) }
}

/** One full load after another, each the best of several orders. */
function firstLayouts(
  packing: Packing,
  bundles: readonly Bundle[],
  rng: Rng,
): { layouts: Layout[]; rest: readonly Bundle[] } {
  const layouts: Layout[] = []
  let rest = bundles
  while (rest.length > 0) {
    const layout = fullestLayout(packing, rest, rng)
    if (layout === undefined) break
    layouts.push({ ...layout, out: [] })
    rest = layout.out
  }
  return { layouts, rest }
}

function fullestLayout(packing: Packing, bundles: readonly Bundle[], rng: Rng): Layout | undefined {
  const ways = promisingWays(packing.plan, packing.plan.arrangements.slice(0, 2), [bundles], FIRST_WAYS)
  const first = bestOf(packing, ways, rng)
  const better = first && withWholeGroups(packing, refilled(packing, first, FIRST_REFILLS, rng), rng)
  return better !== undefined && better.levels.length > 0 ? better : undefined
}

/** Fillers where room is left: sets whole, the more urgent first. */
function withFillers(
  packing: Packing,
  layouts: readonly Layout[],
  fillers: readonly LoadItem[],
  kind: LoadKind,
  rng: Rng,
): { layouts: Layout[]; out: string[] } {
  const filled = [...layouts]
  const out: string[] = []
  const units = unitsOf(bundlesFor(fillers, packing.plan.kiln, kind, 'apart'))
  for (const unit of units.sort((a, b) => b.urgency - a.urgency || b.wareMm3 - a.wareMm3)) {
    let isIn = false
    for (let i = 0; i < filled.length && !isIn; i++) {
      const next = placeUnit(packing, filled[i]!, unit, rng)
      if (next === undefined) continue
      filled[i] = next
      isIn = true
    }
    if (!isIn) out.push(...unit.bundles.flatMap((bundle) => bundle.members.map(({ item }) => item.key)))
  }
  return { layouts: filled, out }
}
