import { seededRng, seedOf, type Rng } from '#core/rng.ts'
import { assembledLoad } from './assemble.ts'
import { refutation, refutationOfOne } from './bounds.ts'
import { gapOf, type Bundle } from './bundle.ts'
import { bundlesFor, pilingsFor } from './bundles.ts'
import { canonicalItems } from './canonical.ts'
import { constructed, costOf, orders } from './construct.ts'
import { improved } from './improve.ts'
import { kilnPlanOf, type Arrangement } from './kilnPlan.ts'
import { place, withStands, type Layout, type Packing } from './layout.ts'
import type { FitAnswer, FitEffort, Footprint, KilnSpace, LeftOut, LoadItem, LoadKind, Reason } from './types.ts'

/** Pieces tried in one load at most; a kiln holds a few hundred. */
const MOST_PIECES = 1_500

/** How much each effort may do; iterations, never seconds. */
const BUDGETS = {
  quick: { arrangements: 2, orders: 2, rounds: 4, anglesPerTurn: 4, fullShare: 0.9 },
  thorough: { arrangements: 4, orders: 5, rounds: 400, anglesPerTurn: 16, fullShare: 1.1 },
} as const

/**
 * Whether one load of the kiln takes every must-go piece, with the load if it was found; pieces that may go fill the
 * room left. The answer hangs on kiln, sizes, kind and effort alone: not on keys, order or earlier calls.
 *
 * `impossible` is proved. `not-found` at effort `bound` says only that nothing was proved.
 */
export function fits(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind, effort: FitEffort): FitAnswer {
  const must = mustGoItems(items)
  const refuted = refutation(kiln, must, kind)
  if (refuted !== undefined) return { answer: 'impossible', ...refuted }
  if (effort === 'bound') return { answer: 'not-found', subset: must.map((item) => item.key) }
  const memory = memoryOf(kiln)
  const canonical = canonicalItems(items, memory.footprints)
  const question = `${kind} ${effort} ${canonical.signature}`
  let answer = memory.answers.get(question)
  if (answer === undefined) {
    answer = searched(kiln, canonical.items, kind, effort, seedOf(question))
    remember(memory, question, answer)
  }
  return withKeys(answer, canonical.keys)
}

/** Answers given for one kiln, by sizes, and the outlines they share. */
type Memory = { readonly answers: Map<string, FitAnswer>; readonly footprints: Map<string, Footprint> }

const memories = new WeakMap<KilnSpace, Memory>()
const MOST_ANSWERS = 2_000

function memoryOf(kiln: KilnSpace): Memory {
  let memory = memories.get(kiln)
  if (memory === undefined) {
    memory = { answers: new Map(), footprints: new Map() }
    memories.set(kiln, memory)
  }
  return memory
}

function remember(memory: Memory, question: string, answer: FitAnswer): void {
  if (memory.answers.size >= MOST_ANSWERS) memory.answers.clear()
  if (memory.footprints.size >= MOST_ANSWERS * 10) memory.footprints.clear()
  memory.answers.set(question, answer)
}

/** Must-go pieces, and those that must go because a member of their group or their pot or lid must. */
function mustGoItems(items: readonly LoadItem[]): LoadItem[] {
  if (items.every((item) => item.mustGo)) return [...items]
  const must = new Set(items.filter((item) => item.mustGo))
  const pots = new Map(items.map((item) => [item.key, item]))
  for (let before = -1; before !== must.size;) {
    before = must.size
    const groups = new Set([...must].map((item) => item.group))
    for (const item of items) {
      if (item.group !== undefined && groups.has(item.group)) must.add(item)
      const pot = item.lidOf === undefined ? undefined : pots.get(item.lidOf)
      if (pot !== undefined && must.has(pot)) must.add(item)
      if (pot !== undefined && must.has(item)) must.add(pot)
    }
  }
  return items.filter((item) => must.has(item))
}

function searched(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  effort: 'quick' | 'thorough',
  seed: number,
): FitAnswer {
  const budget = BUDGETS[effort]
  const plan = kilnPlanOf(kiln)
  const packing: Packing = { plan, gapMm: gapOf(kiln, kind), ...budget }
  const must = new Set(mustGoItems(items))
  const subset = [...must].map((item) => item.key)
  if (must.size > MOST_PIECES || plan.arrangements.length === 0) return { answer: 'not-found', subset }
  const { going, leftOut } = candidates(kiln, items, must, kind)
  const ways = pilingsFor(going, kind).map((piling) => bundlesFor(going, kiln, kind, piling))
  const rng = seededRng(seed)
  const layout = bestLayout(packing, plan.arrangements.slice(0, budget.arrangements), ways, budget, rng)
  const whole = layout && withWholeGroups(packing, layout, rng)
  if (whole === undefined || whole.out.some((bundle) => bundle.mustGo)) return { answer: 'not-found', subset }
  const noRoom = whole.out.flatMap((bundle) => bundle.members.map(({ item }) => leftOutFor(item.key, 'no-room')))
  const load = assembledLoad(packing, whole, kind, [...leftOut, ...noRoom])
  return load === undefined ? { answer: 'not-found', subset } : { answer: 'fits', load }
}

function bestLayout(
  packing: Packing,
  arrangements: readonly Arrangement[],
  ways: readonly (readonly Bundle[])[],
  budget: (typeof BUDGETS)['quick' | 'thorough'],
  rng: Rng,
): Layout | undefined {
  let best: Layout | undefined
  let bestCost = Infinity
  for (const arrangement of arrangements) {
    for (const bundles of ways) {
      for (const order of orders.slice(0, budget.orders)) {
        const layout = constructed(packing, arrangement, bundles, order, rng)
        const cost = costOf(layout)
        if (cost >= bestCost) continue
        best = layout
        bestCost = cost
        if (cost === 0) return best
      }
    }
  }
  return best && improved(packing, best, budget.rounds, rng)
}

/** Pieces worth trying beside the must-go ones: those that fit by themselves and can share their firing. */
function candidates(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  must: ReadonlySet<LoadItem>,
  kind: LoadKind,
): { going: LoadItem[]; leftOut: LeftOut[] } {
  const peakC = commonPeakC(items, must)
  const leftOut: LeftOut[] = []
  const lostGroups = new Set<string>()
  const fillers = items.filter((item) => !must.has(item))
  const kept = fillers.filter((item, i) => {
    const reason = i + must.size >= MOST_PIECES ? { code: 'not-tried', params: {} } : whyNot(kiln, item, kind, peakC)
    if (reason === undefined) return true
    leftOut.push({ key: item.key, reason })
    if (item.group !== undefined) lostGroups.add(item.group)
    return false
  })
  const going = kept.filter((item) => {
    const isLost = item.group !== undefined && lostGroups.has(item.group)
    if (isLost) leftOut.push(leftOutFor(item.key, 'group-left-out'))
    return !isLost
  })
  const goingKeys = new Set([...must, ...going].map((item) => item.key))
  const withPots = going.filter((item) => {
    const isLost = item.lidOf !== undefined && !goingKeys.has(item.lidOf)
    if (isLost) leftOut.push(leftOutFor(item.key, 'pot-left-out'))
    return !isLost
  })
  return { going: [...[...must].map((item) => ({ ...item, mustGo: true })), ...withPots], leftOut }
}

function whyNot(kiln: KilnSpace, item: LoadItem, kind: LoadKind, peakC: number | undefined): Reason | undefined {
  const alone = refutationOfOne(kiln, item, kind)
  if (alone !== undefined || item.firing === undefined || peakC === undefined) return alone
  const { lowC, highC } = item.firing
  return lowC <= peakC && peakC <= highC ? undefined : { code: 'firing-range', params: { lowC, highC, peakC } }
}

/** The peak that suits all must-go pieces and the most volume of the rest; undefined when nobody minds. */
function commonPeakC(items: readonly LoadItem[], must: ReadonlySet<LoadItem>): number | undefined {
  const ranged = items.filter((item) => item.firing !== undefined)
  let best: number | undefined
  let bestCount = -1
  for (const { firing } of ranged) {
    const peakC = firing!.lowC
    const suited = ranged.filter((item) => item.firing!.lowC <= peakC && peakC <= item.firing!.highC)
    const isForMust = ranged.every((item) => !must.has(item) || suited.includes(item))
    if (!isForMust || suited.length < bestCount || (suited.length === bestCount && peakC >= best!)) continue
    best = peakC
    bestCount = suited.length
  }
  return best
}

/** Takes out what is left of groups that did not all go in, and offers the room to the others. */
function withWholeGroups(packing: Packing, layout: Layout, rng: Rng): Layout {
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

const groupsIn = (bundle: Bundle): string[] =>
  bundle.members.flatMap(({ item }) => (item.group === undefined ? [] : [item.group]))

const leftOutFor = (key: string, code: string): LeftOut => ({ key, reason: { code, params: {} } })

function withKeys(answer: FitAnswer, keys: readonly string[]): FitAnswer {
  const keyOf = (canonical: string): string => keys[Number(canonical)]!
  if (answer.answer !== 'fits') return { ...answer, subset: answer.subset.map(keyOf) }
  const { load } = answer
  const levels = load.levels.map((level) => ({
    ...level,
    placements: level.placements.map(({ onTopOf, ...placement }) => ({
      ...placement,
      key: keyOf(placement.key),
      ...(onTopOf && { onTopOf: { ...onTopOf, key: keyOf(onTopOf.key) } }),
    })),
  }))
  return { answer: 'fits', load: { ...load, levels, leftOut: load.leftOut.map((l) => ({ ...l, key: keyOf(l.key) })) } }
}
