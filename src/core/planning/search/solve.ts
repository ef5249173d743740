import { seededRng, type Rng } from '../../rng.ts'
import { createRearranging, hasManyWays } from './firings/turns.ts'
import { firstPlan } from './firstPlan.ts'
import { indexProblem, type Indexed } from './indexed.ts'
import { createImprover, type Improver } from './lns/improve.ts'
import { impossibleCycle, isFirm, longestPaths } from './longestPaths.ts'
import { orderPairs, type Pairs } from './pairs.ts'
import { createBreeding } from './population/breed.ts'
import type { Cause, Problem, Solution, SolveOptions } from './problem.ts'
import { createProgress, type Progress } from './progress.ts'
import { keptFrom } from './warm.ts'
import { createWhole } from './whole.ts'

/** Up to so many tasks all pairs have their order as a variable and the whole is searched, not only parts. */
const MOST_WHOLE = 300
/** Beyond so many tasks the first plan comes by insertion. */
const MOST_AT_ONCE = 150
/** Conflicts of a turn: of the parts, of the population, and of the whole at first, least and most. */
const PARTS_TURN = 2000
const BREEDING_TURN = 1500
const WHOLE_TURN = { first: 1000, least: 500, most: 12_000 }

/**
 * Plans: the whole problem by lazy clause generation, a population of orders and parts of the best plan by large
 * neighbourhood search, in turns, each taking over what the others found. Anytime: every better plan is handed to
 * `onBetter`. The same problem, seed and budget give the same answer.
 */
export function solve(problem: Problem, options: SolveOptions): Solution {
  // Where nothing is weighed, one level that weighs nothing is proved by any plan.
  if (problem.costs.length === 0)
    return { ...solve({ ...problem, costs: [{ name: 'nothing', terms: [] }] }, options), costs: [] }
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

/**
 * The whole, the population (if the problem is a plain project) and the parts in turns. The whole gets less while only
 * the others find something, more when nobody does.
 */
function takeTurns(indexed: Indexed, pairs: Pairs | undefined, progress: Progress, rng: Rng): void {
  const improver = createImprover(indexed, pairs, progress.packing, (level) => leastAt(progress, level), rng)
  let whole: ReturnType<typeof createWhole> | undefined
  const breed = createBreeding(indexed, progress, rng)
  const rearranging = createRearranging(indexed, progress, rng)
  rearranging.begin()
  const isWhole = pairs !== undefined && !hasManyWays(indexed)
  let turn = WHOLE_TURN.first
  while (!progress.isOver()) {
    const bestBefore = progress.best
    // A problem too large for its pairs is searched as a whole only until there is a plan.
    if (isWhole || !progress.best) (whole ??= createWhole(indexed, pairs, progress, rng))(turn)
    if (!progress.best) continue
    const bestOfWhole = progress.best
    breed(BREEDING_TURN)
    rearranging.turn()
    improveParts(improver, progress)
    if (progress.best !== bestOfWhole && bestOfWhole === bestBefore) turn = Math.max(WHOLE_TURN.least, turn >> 1)
    else turn = Math.min(WHOLE_TURN.most, turn * 2)
  }
}

function leastAt({ provenLevels, best, lowerBound }: Progress, level: number): number {
  if (level < provenLevels) return best!.costs[level]!
  return level === 0 ? lowerBound : 0
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
