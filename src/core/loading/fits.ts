import { seededRng, seedOf } from '#core/rng.ts'
import { assembledLoad } from './assemble.ts'
import { refutation } from './bounds.ts'
import { gapOf } from './bundle.ts'
import { bundlesFor, pilingsFor } from './bundles.ts'
import { canonicalItems, withKeys } from './canonical.ts'
import { candidates, leftOutFor, MOST_PIECES, mustGoItems } from './choice.ts'
import { bestOf } from './construct.ts'
import { improved } from './improve.ts'
import { kilnPlanOf } from './kilnPlan.ts'
import { withWholeGroups } from './groups.ts'
import type { Packing } from './layout.ts'
import { oncePer } from './once.ts'
import { promisingWays } from './promising.ts'
import { refilled } from './refill.ts'
import type { FitAnswer, FitEffort, Footprint, KilnSpace, LoadItem, LoadKind } from './types.ts'

/** How much an effort may do; iterations, never seconds. */
type Budget = {
  readonly arrangements: number
  /** Most promising ways of filling the kiln that are tried. */
  readonly ways: number
  /** Levels emptied and filled anew, each for itself. */
  readonly refills: number
  /** Rounds of ruin and recreate. */
  readonly rounds: number
  readonly anglesPerTurn: number
  readonly fullShare: number
}

const BUDGETS = {
  quick: { arrangements: 2, ways: 1, refills: 6, rounds: 0, anglesPerTurn: 4, fullShare: 0.8 },
  thorough: { arrangements: 4, ways: 10, refills: 20, rounds: 400, anglesPerTurn: 16, fullShare: 1.1 },
} as const satisfies Record<string, Budget>

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
    answer = searched(kiln, canonical.items, kind, BUDGETS[effort], seedOf(question))
    remember(memory, question, answer)
  }
  return named(answer, canonical.keys)
}

/**
 * The load that a given number of rounds finds, as `thorough` does with its own; nothing is remembered. For judging how
 * much more time would find.
 */
export function fullestLoad(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind, rounds: number): FitAnswer {
  const canonical = canonicalItems(items, new Map())
  return named(searched(kiln, canonical.items, kind, { ...BUDGETS.thorough, rounds }, 1), canonical.keys)
}

/** Answers given for one kiln, by sizes, and the outlines they share. */
type Memory = { readonly answers: Map<string, FitAnswer>; readonly footprints: Map<string, Footprint> }

const memoryOf = oncePer<KilnSpace, Memory>(() => ({ answers: new Map(), footprints: new Map() }))
const MOST_ANSWERS = 2_000

function remember(memory: Memory, question: string, answer: FitAnswer): void {
  if (memory.answers.size >= MOST_ANSWERS) memory.answers.clear()
  if (memory.footprints.size >= MOST_ANSWERS * 10) memory.footprints.clear()
  memory.answers.set(question, answer)
}

function searched(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  budget: Budget,
  seed: number,
): FitAnswer {
  const plan = kilnPlanOf(kiln)
  const packing: Packing = { plan, gapMm: gapOf(kiln, kind), ...budget }
  const must = new Set(mustGoItems(items))
  const subset = [...must].map((item) => item.key)
  if (must.size > MOST_PIECES || plan.arrangements.length === 0) return { answer: 'not-found', subset }
  const { going, leftOut } = candidates(kiln, items, must, kind)
  const piled = pilingsFor(going, kind).map((piling) => bundlesFor(going, kiln, kind, piling))
  const rng = seededRng(seed)
  const promising = promisingWays(plan, plan.arrangements.slice(0, budget.arrangements), piled, budget.ways)
  const first = bestOf(packing, promising, rng)
  const layout = first && improved(packing, refilled(packing, first, budget.refills, rng), budget.rounds, rng)
  const whole = layout && withWholeGroups(packing, layout, rng)
  if (whole === undefined || whole.out.some((bundle) => bundle.mustGo)) return { answer: 'not-found', subset }
  const noRoom = whole.out.flatMap((bundle) => bundle.members.map(({ item }) => leftOutFor(item.key, 'no-room')))
  const load = assembledLoad(packing, whole, kind, [...leftOut, ...noRoom])
  return load === undefined ? { answer: 'not-found', subset } : { answer: 'fits', load }
}

function named(answer: FitAnswer, keys: readonly string[]): FitAnswer {
  if (answer.answer === 'fits') return { answer: 'fits', load: withKeys(answer.load, keys) }
  return { ...answer, subset: answer.subset.map((key) => keys[Number(key)]!) }
}
