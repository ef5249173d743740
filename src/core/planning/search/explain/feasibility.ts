import { seededRng } from '../../../rng.ts'
import { createSearch, type Search } from '../exact.ts'
import { indexProblem, type Indexed } from '../indexed.ts'
import { isFirm, longestPaths } from '../longestPaths.ts'
import { orderPairs, pairsApart } from '../pairs.ts'
import type { Problem } from '../problem.ts'
import { toPlan } from '../schedule.ts'
import type { Plan } from '../problem.ts'

/** Asks one model again and again which assumptions can hold together; what one answer taught helps the next. */
export type Feasibility = {
  readonly test: (assumptions: readonly number[], limits: { conflicts: number; cancelled: () => boolean }) => Answer
  readonly conflicts: () => number
}

export type Answer =
  | { readonly kind: 'possible'; readonly plan: Plan }
  /** Of the assumptions asked for, those that cannot hold together. */
  | { readonly kind: 'impossible'; readonly core: readonly number[] }
  | { readonly kind: 'open' }

/** Up to so many tasks paths and pairs are looked at. */
export const MOST_PAIRED = 300

/** Costs play no part. */
export function createFeasibility(problem: Problem, seed: number): Feasibility {
  const indexed = indexProblem({ ...problem, costs: [] })
  const rng = seededRng(seed)
  const search = searchWithoutAssumptions(indexed, rng)
  return {
    test: (assumptions, limits) => {
      if (!search) return { kind: 'impossible', core: [] }
      const outcome = search.run(limits, undefined, assumptions)
      if (outcome === 'found') return { kind: 'possible', plan: toPlan(indexed, search.schedule()) }
      if (outcome === 'stopped') return { kind: 'open' }
      const inCore = new Set(search.solver.core().map(({ side }) => side))
      return {
        kind: 'impossible',
        core: assumptions.filter((one) => inCore.has(search.compiled.assumptions[one]!.side)),
      }
    },
    conflicts: () => search?.solver.conflicts() ?? 0,
  }
}

/** Pairs are ordered by firm lags only, so that every deduction names the assumptions it rests on. */
function searchWithoutAssumptions(indexed: Indexed, rng: ReturnType<typeof seededRng>): Search | undefined {
  if (indexed.taskCount > MOST_PAIRED) return createSearch(indexed, {}, rng, { assume: 'none' })
  const firm = indexed.links.filter((link) => isFirm(indexed, link))
  const pairs = orderPairs(indexed, pairsApart(indexed), longestPaths(indexed.taskCount + 1, firm))
  return pairs && createSearch(indexed, { pairs }, rng, { assume: 'none' })
}
