import { seededRng, type Rng } from '../../rng.ts'
import { createRearranging, hasManyWays } from './firings/turns.ts'
import { firstPlan } from './firstPlan.ts'
import { indexProblem, type Indexed } from './indexed.ts'
import { createImprover, type Improver } from './lns/improve.ts'
import { impossibleCycle, isFirm, longestPaths } from './longestPaths.ts'
import { orderPairs, pairsApart, type Pairs } from './pairs.ts'
import { createBreeding } from './population/breed.ts'
import type { Cause, Problem, Solution, SolveOptions } from './problem.ts'
import { createProgress, type Progress } from './progress.ts'
import { keptFrom } from './warm.ts'
import { createWhole } from './whole.ts'

/** Up to so many tasks all pairs have their order as a variable and the whole is searched, not only parts. */
const MOST_WHOLE = 300
/** Beyond so many tasks the first plan comes by insertion. */
const MOST_AT_ONCE = 150
/** A turn's work, in conflicts of the whole: of the population, and of the parts and the whole at first, least, most. */
const BREEDING_TURN = 1500
const PARTS_TURN = { first: 1000, least: 250, most: 2000 }
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
  const pairs = distances && orderPairs(indexed, pairsApart(indexed), distances)
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
 * the others find something, more when nobody does; the parts get more when they find something, else less.
 */
function takeTurns(indexed: Indexed, pairs: Pairs | undefined, progress: Progress, rng: Rng): void {
  const improver = createImprover(indexed, pairs, progress.packing, (level) => leastAt(progress, level), rng)
  let whole: ReturnType<typeof createWhole> | undefined
  const breed = createBreeding(indexed, progress, rng)
  const rearranging = createRearranging(indexed, progress, rng)
  rearranging.begin()
  const isWhole = pairs !== undefined && !hasManyWays(indexed)
  let wholeTurn: number = WHOLE_TURN.first
  let partsTurn: number = PARTS_TURN.first
  while (!progress.isOver()) {
    const bestBefore = progress.best
    // A problem too large for its pairs is searched as a whole only until there is a plan.
    if (isWhole || !progress.best) (whole ??= createWhole(indexed, pairs, progress, rng))(wholeTurn)
    if (!progress.best) continue
    if (!isWhole) proveLeast(progress, indexed.problem.costs.length)
    const bestOfWhole = progress.best
    breed(BREEDING_TURN)
    rearranging.turn()
    const bestBeforeParts = progress.best
    improveParts(improver, progress, partsTurn)
    if (progress.best !== bestBeforeParts) partsTurn = Math.min(PARTS_TURN.most, partsTurn * 2)
    else partsTurn = Math.max(PARTS_TURN.least, partsTurn >> 1)
    if (progress.best !== bestOfWhole && bestOfWhole === bestBefore)
      wholeTurn = Math.max(WHOLE_TURN.least, wholeTurn >> 1)
    else wholeTurn = Math.min(WHOLE_TURN.most, wholeTurn * 2)
  }
}

/** Without a search of the whole a level is proved only if it costs the least that is known of it: else turns had no end. */
function proveLeast(progress: Progress, levelCount: number): void {
  const isLeast = (level: number) => progress.best!.costs[level]! <= leastAt(progress, level)
  while (progress.provenLevels < levelCount && isLeast(progress.provenLevels)) progress.provenLevels++
}

function leastAt({ provenLevels, best, lowerBound }: Progress, level: number): number {
  if (level < provenLevels) return best!.costs[level]!
  return level === 0 ? lowerBound : 0
}

function improveParts(improver: Improver, progress: Progress, turn: number): void {
  let current = progress.best!
  for (let spent = 0; spent < turn && !progress.isOver();) {
    const { next, work } = improver.step(current, progress.limits(Infinity))
    if (work === 0) break
    progress.spend(work)
    spent += work
    if (!next) continue
    current = next
    progress.offer(next)
  }
  progress.iterations = improver.iterations()
}
