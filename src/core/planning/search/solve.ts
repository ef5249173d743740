import { seededRng } from '../../rng.ts'
import { createSearch } from './exact.ts'
import { indexProblem } from './indexed.ts'
import { impossibleCycle, isFirm, longestPaths } from './longestPaths.ts'
import { orderPairs } from './pairs.ts'
import type { Problem, Solution, SolveOptions } from './problem.ts'
import { toPlan, type Schedule } from './schedule.ts'

export function solve(problem: Problem, options: SolveOptions): Solution {
  const indexed = indexProblem(problem)
  const rng = seededRng(options.seed)
  const firm = indexed.links.filter((link) => link.assumption >= 0 || isFirm(indexed, link))
  const none = { costs: [], lowerBound: 0, unproven: [], conflicts: 0, iterations: 0 }
  const cycle = impossibleCycle(indexed.taskCount + 1, firm)
  if (cycle)
    return {
      status: 'infeasible',
      ...none,
      cause: { kind: 'cycle', reasons: cycle.map((l) => l.reason), assumptionIds: [] },
    }
  const distances = longestPaths(indexed.taskCount + 1, firm)
  const pairs = orderPairs(indexed, (t) => indexed.groupOf[t]! < 0 && indexed.modes[t]!.length === 1, distances)
  if (!pairs) return { status: 'infeasible', ...none, cause: { kind: 'assumptions', assumptionIds: [] } }
  const search = createSearch(indexed, { pairs }, rng)
  let best: Schedule | undefined
  let status: Solution['status'] = 'unknown'
  for (;;) {
    const outcome = search.run(
      { conflicts: options.conflicts - search.solver.conflicts(), cancelled: options.cancelled ?? (() => false) },
      best,
    )
    if (outcome === 'exhausted') {
      status = best ? 'optimal' : 'infeasible'
      break
    }
    if (outcome === 'stopped') {
      status = best ? 'feasible' : 'unknown'
      break
    }
    best = search.schedule()
    options.onBetter?.(toPlan(indexed, best), best.costs)
    if (!search.demandLess(0, best.costs[0]!)) {
      status = 'optimal'
      break
    }
  }
  return {
    status,
    ...(best ? { plan: toPlan(indexed, best) } : {}),
    costs: best?.costs ?? [],
    lowerBound: status === 'optimal' ? best!.costs[0]! : 0,
    unproven: [],
    conflicts: search.solver.conflicts(),
    iterations: 0,
  }
}
