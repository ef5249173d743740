import { seededRng, type Rng } from '../../rng.ts'
import { createSearch } from './exact.ts'
import { firstPlan } from './firstPlan.ts'
import { indexProblem, type Indexed } from './indexed.ts'
import type { Limits } from './lcg/solver.ts'
import { createImprover, type Improver } from './lns/improve.ts'
import { impossibleCycle, isFirm, longestPaths } from './longestPaths.ts'
import type { Packing } from './packing.ts'
import { orderPairs, type Pairs } from './pairs.ts'
import type { Cause, Problem, Solution, SolveOptions } from './problem.ts'
import { keptFrom } from './warm.ts'
import { isBetter, toPlan, type Schedule } from './schedule.ts'

/** Up to so many tasks all pairs have their order as a variable and the whole is searched, not only parts. */
const MOST_WHOLE = 300
/** Beyond so many tasks the first plan comes by insertion. */
const MOST_AT_ONCE = 150
/** Conflicts of a turn: of the parts, and of the whole at first, least and most. */
const PARTS_TURN = 3000
const WHOLE_TURN = { first: 3000, least: 500, most: 12_000 }

/**
 * Plans: the whole problem by lazy clause generation and parts of it by large neighbourhood search, in turns, each
 * taking over what the other found. Anytime: every better plan is handed to `onBetter`. The same problem, seed and
 * budget give the same answer.
 */
export function solve(problem: Problem, options: SolveOptions): Solution {
  const indexed = indexProblem(problem)
  const rng = seededRng(options.seed)
  const firm = indexed.links.filter((link) => link.assumption >= 0 || isFirm(indexed, link))
  const cycle = impossibleCycle(indexed.taskCount + 1, firm)
  if (cycle) {
    const assumptionIds = cycle.flatMap(({ assumption }) =>
      assumption < 0 ? [] : [problem.assumptions![assumption]!.id],
    )
    return impossible({ kind: 'cycle', reasons: cycle.map(({ reason }) => reason), assumptionIds })
  }
  const progress = createProgress(indexed, options)
  const distances = indexed.taskCount <= MOST_WHOLE ? longestPaths(indexed.taskCount + 1, firm) : undefined
  const pairs = distances && orderPairs(indexed, (task) => isOrdinary(indexed, task), distances)
  if (distances && !pairs) return impossible(undefined)
  if (options.warm) {
    const kept = keptFrom(indexed, options.warm)
    if (kept) progress.offer(kept)
  }
  if (!progress.best && indexed.taskCount > MOST_AT_ONCE && indexed.kilns.length === 0) {
    const { schedule, conflicts } = firstPlan(indexed, rng, options.cancelled ?? (() => false))
    progress.spend(conflicts)
    if (schedule) progress.offer(schedule)
  }
  takeTurns(indexed, pairs, progress, rng)
  return progress.solution()
}

const isOrdinary = ({ groupOf, modes }: Indexed, task: number): boolean =>
  groupOf[task]! < 0 && modes[task]!.length === 1

const impossible = (cause: Cause | undefined): Solution => ({
  status: 'infeasible',
  costs: [],
  lowerBound: 0,
  ...(cause ? { cause } : {}),
  unproven: [],
  conflicts: 0,
  iterations: 0,
})

/** What is known so far, and what may still be spent. */
type Progress = {
  best: Schedule | undefined
  /** Levels before it are proved to be least. */
  provenLevels: number
  isImpossible: boolean
  lowerBound: number
  iterations: number
  readonly packing: Packing | undefined
  readonly offer: (schedule: Schedule) => void
  readonly spend: (conflicts: number) => void
  readonly limits: (conflicts: number) => Limits
  readonly isOver: () => boolean
  readonly solution: () => Solution
}

function createProgress(indexed: Indexed, options: SolveOptions): Progress {
  const cancelled = options.cancelled ?? (() => false)
  let spent = 0
  const progress: Progress = {
    best: undefined,
    provenLevels: 0,
    isImpossible: false,
    lowerBound: 0,
    iterations: 0,
    packing: options.oracle && { oracle: options.oracle, unproven: [] },
    offer: (schedule) => {
      if (progress.best && !isBetter(schedule.costs, progress.best.costs)) return
      progress.best = schedule
      options.onBetter?.(toPlan(indexed, schedule), schedule.costs)
    },
    spend: (conflicts) => {
      spent += conflicts
    },
    limits: (conflicts) => ({ conflicts: Math.min(conflicts, options.conflicts - spent), cancelled }),
    isOver: () =>
      spent >= options.conflicts ||
      progress.isImpossible ||
      progress.provenLevels === indexed.problem.costs.length ||
      cancelled(),
    solution: () => {
      const { best, provenLevels, lowerBound, iterations, isImpossible } = progress
      const isProved = provenLevels === indexed.problem.costs.length
      return {
        status: isImpossible ? 'infeasible' : best ? (isProved ? 'optimal' : 'feasible') : 'unknown',
        ...(best ? { plan: toPlan(indexed, best) } : {}),
        costs: best?.costs ?? [],
        lowerBound: best && provenLevels > 0 ? best.costs[0]! : lowerBound,
        unproven: progress.packing?.unproven ?? [],
        conflicts: spent,
        iterations,
      }
    },
  }
  return progress
}

/** The whole and the parts in turns; the whole gets less while only the parts find something, more when neither does. */
function takeTurns(indexed: Indexed, pairs: Pairs | undefined, progress: Progress, rng: Rng): void {
  const improver = createImprover(
    indexed,
    pairs,
    progress.packing,
    (level) => (level < progress.provenLevels ? progress.best!.costs[level]! : level === 0 ? progress.lowerBound : 0),
    rng,
  )
  const whole = createWhole(indexed, pairs, progress, rng)
  let turn = WHOLE_TURN.first
  while (!progress.isOver()) {
    const bestBefore = progress.best
    // A problem too large for its pairs is searched as a whole only until there is a plan.
    if (pairs || !progress.best) whole(turn)
    if (!progress.best) continue
    const bestOfWhole = progress.best
    improveParts(improver, progress)
    if (progress.best !== bestOfWhole && bestOfWhole === bestBefore) turn = Math.max(WHOLE_TURN.least, turn >> 1)
    else turn = Math.min(WHOLE_TURN.most, turn * 2)
  }
}

function improveParts(improver: Improver, progress: Progress): void {
  let current = progress.best!
  for (let spent = 0; spent < PARTS_TURN && !progress.isOver();) {
    const { next, conflicts } = improver.step(current, progress.limits(Infinity))
    if (conflicts === 0) break
    progress.spend(conflicts)
    spent += conflicts
    if (!next) continue
    current = next
    progress.offer(next)
  }
  progress.iterations = improver.iterations()
}

/** Searches the whole problem for less at the first level not yet proved, so many conflicts at a time. */
function createWhole(
  indexed: Indexed,
  pairs: Pairs | undefined,
  progress: Progress,
  rng: Rng,
): (conflicts: number) => void {
  const begin = () => {
    const search = createSearch(indexed, pairs ? { pairs } : {}, rng, { packing: progress.packing })
    for (let level = 0; level < progress.provenLevels; level++) search.demandAtMost(level, progress.best!.costs[level]!)
    return search
  }
  let search = begin()
  const proved = (): void => {
    if (!progress.best) progress.isImpossible = true
    else if (++progress.provenLevels < indexed.problem.costs.length) search = begin()
  }
  return (conflicts) => {
    for (let left = conflicts; left > 0 && !progress.isOver();) {
      const level = progress.provenLevels
      if (progress.best && !search.demandLess(level, progress.best.costs[level]!)) {
        proved()
        continue
      }
      const spentBefore = search.solver.conflicts()
      const outcome = search.run(progress.limits(left), progress.best)
      const spent = search.solver.conflicts() - spentBefore
      progress.spend(spent)
      left -= spent
      if (level === 0) progress.lowerBound = Math.max(progress.lowerBound, search.provedAtLeast(0))
      if (outcome === 'exhausted') proved()
      else if (outcome === 'stopped') return
      else progress.offer(search.schedule())
    }
  }
}
