import { seededRng } from '#core/rng.ts'
import { assembledLoad } from './assemble.ts'
import { fewestLoads } from './bounds.ts'
import { gapOf } from './bundle.ts'
import { canonicalItems, withKeys } from './canonical.ts'
import { leftOutFor, mustGoItems } from './choice.ts'
import { evened } from './evenness.ts'
import { withFillers } from './fillers.ts'
import { heatClasses } from './heatClasses.ts'
import { kilnPlanOf } from './kilnPlan.ts'
import { layoutsFor, type LoadedKiln } from './manyLoads.ts'
import { refutationOfOne } from './onePiece.ts'
import type { KilnSpace, LeftOut, Load, LoadItem, LoadKind, Reason } from './types.ts'

/** A kiln, and how often it can be fired for these pieces. */
export type KilnToLoad = { readonly space: KilnSpace; readonly mostLoads: number }

/** Several loads, and what goes in none of them. */
export type PackedLoads = {
  readonly loads: readonly Load[]
  /** Pieces that no load takes, with reasons, and fillers for which no room was left. */
  readonly leftOut: readonly LeftOut[]
  /** Loads that the must-go pieces need at least: proved. */
  readonly atLeast: number
}

/** The same for several kilns: loads of each, as the kilns were given. */
export type PackedKilns = Omit<PackedLoads, 'loads'> & { readonly loads: readonly (readonly Load[])[] }

export type PackingEffort = {
  readonly seed: number
  /** Rounds of ruin and recreate in all; 0: the first loads found. */
  readonly iterations: number
}

/** `packKilns` for one kiln that can be fired as often as need be. */
export function packLoads(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  effort: PackingEffort,
): PackedLoads {
  const { loads, ...rest } = packKilns([{ space: kiln, mostLoads: Infinity }], items, kind, effort)
  return { ...rest, loads: loads[0]! }
}

/**
 * Every must-go piece in as few loads of the kilns as are found, the last in the smallest kiln that takes it, then
 * fillers where room is left, then the loads of each kiln evened by mass and height. Sets stay together, and pieces share
 * a load only if one peak suits them all. Depends on kilns, sizes, kind, seed and iterations alone.
 * @param kilns at least one
 */
export function packKilns(
  kilns: readonly KilnToLoad[],
  items: readonly LoadItem[],
  kind: LoadKind,
  { seed, iterations }: PackingEffort,
): PackedKilns {
  const canonical = canonicalItems(items, new Map())
  const must = new Set(mustGoItems(canonical.items))
  const loaded = kilns.map(({ space, mostLoads }): LoadedKiln => {
    const packing = { plan: kilnPlanOf(space), gapMm: gapOf(space, kind), anglesPerTurn: 8, fullShare: 1.1 }
    return { packing, whyNot: whyNotIn(space, canonical.items, kind), loadsLeft: mostLoads, layouts: [] }
  })
  const reasons = loaded.map(({ whyNot }) => whyNot)
  const isPossible = ({ key }: LoadItem): boolean => reasons.some((whyNot) => !whyNot.has(key))
  const going = canonical.items.filter(isPossible)
  const wanted = going.filter((item) => must.has(item)).map((item) => ({ ...item, mustGo: true }))
  const fillers = going.filter((item) => !must.has(item))
  const rng = seededRng(seed)
  const { classes, unsuited } = heatClasses(wanted, fillers)
  const leftOut: LeftOut[] = [...reasons[0]!.keys()]
    .filter((key) => reasons.every((whyNot) => whyNot.has(key)))
    .map((key) => ({ key, reason: reasonFrom(reasons.map((whyNot) => whyNot.get(key)!)) }))
  leftOut.push(...unsuited.map(({ key }) => leftOutFor(key, 'firing-ranges-apart')))
  const spaces = kilns.map(({ space }) => space)
  const loads: Load[][] = kilns.map(() => [])
  for (const heat of classes) {
    const atLeast = fewestLoads(spaces, heat.wanted, kind)
    const rounds = Math.floor((iterations * heat.wanted.length) / Math.max(1, wanted.length))
    const unplaced = layoutsFor(loaded, heat.wanted, kind, atLeast, rounds, rng)
    const out = withFillers(loaded, heat.fillers, kind, rng)
    loaded.forEach((own, k) => {
      const even = evened(own.packing, own.layouts, rng)
      for (const layout of even) loads[k]!.push(assembledLoad(own.packing, layout, kind, [])!)
      own.loadsLeft -= own.layouts.length
      own.layouts = []
    })
    leftOut.push(...[...unplaced, ...out].map((key) => leftOutFor(key, 'no-room')))
  }
  return {
    loads: loads.map((ofKiln) => ofKiln.map((load) => withKeys(load, canonical.keys))),
    leftOut: leftOut.map((left) => ({ ...left, key: canonical.keys[Number(left.key)]! })),
    atLeast: classes.reduce((most, heat) => Math.max(most, fewestLoads(spaces, heat.wanted, kind)), 0),
  }
}

/** Why pieces do not go in an empty kiln; with one of a set goes the rest, with a pot its lid. */
function whyNotIn(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind): Map<string, Reason> {
  const whyNot = new Map<string, Reason>()
  for (const item of items) {
    const reason = refutationOfOne(kiln, item, kind)
    if (reason !== undefined) whyNot.set(item.key, reason)
  }
  const groups = new Set(items.filter(({ key }) => whyNot.has(key)).map(({ group }) => group))
  const alone = new Set(whyNot.keys())
  for (const { key, group, lidOf } of items) {
    if (alone.has(key)) continue
    if (group !== undefined && groups.has(group)) whyNot.set(key, { code: 'group-left-out', params: {} })
    else if (lidOf !== undefined && whyNot.has(lidOf)) whyNot.set(key, { code: 'pot-left-out', params: {} })
  }
  return whyNot
}

/** Of the reasons of several kilns rather one of the piece itself. */
const reasonFrom = (reasons: readonly Reason[]): Reason =>
  reasons.find(({ code }) => code !== 'group-left-out' && code !== 'pot-left-out') ?? reasons[0]!
