import { checkSchedule } from '../../src/core/planning/search/check.ts'
import { explain } from '../../src/core/planning/search/explain/explain.ts'
import { relaxed } from '../../src/core/planning/search/explain/remedy.ts'
import type { Problem } from '../../src/core/planning/search/problem.ts'

export type Explained = {
  readonly members: number
  readonly isMinimal: boolean
  /** Impossible whatever the lags: a resource is part of the conflict. */
  readonly isBeyondLags: boolean
  readonly coreCpuS: number
  readonly cheapestPrice: number | undefined
  /** The fix was applied to the problem as stated, and its plan checked against that. */
  readonly isFixed: boolean
  readonly allCpuS: number
}

/**
 * Explains an infeasible instance (if it is so without any maximum lag, as when a task asks more than a resource has,
 * with its resources relaxable too), then checks the plan of the cheapest remedy against the problem it eases.
 */
export function explainInfeasible(stated: Problem, seed: number): Explained {
  const cpuSince = (begun: NodeJS.CpuUsage) => (({ user, system }) => (user + system) / 1e6)(process.cpuUsage(begun))
  const begun = process.cpuUsage()
  const byLags = explain(stated, { seed, conflicts: 20_000 })
  const isBeyondLags = byLags.kind === 'conflict' && byLags.assumptionIds.length === 0
  const problem = isBeyondLags ? withRelaxableResources(stated) : stated
  const short = isBeyondLags ? explain(problem, { seed, conflicts: 20_000 }) : byLags
  const coreCpuS = cpuSince(begun)
  const full = explain(problem, { seed, conflicts: 5_000, withRemedies: true })
  const allCpuS = cpuSince(begun) - coreCpuS
  if (short.kind !== 'conflict' || full.kind !== 'conflict') throw new Error(`explained as ${short.kind}`)
  const [cheapest] = full.remedies
  const fixed = cheapest?.relaxations.reduce(relaxed, problem)
  return {
    members: short.assumptionIds.length,
    isMinimal: short.isMinimal,
    isBeyondLags,
    coreCpuS,
    cheapestPrice: cheapest?.price,
    isFixed: fixed !== undefined && checkSchedule(fixed, cheapest!.plan).length === 0,
    allCpuS,
  }
}

function withRelaxableResources(problem: Problem): Problem {
  const assumptions = problem.resources.map(({ id, reason }) => ({ id, reason, price: 1000 }))
  return {
    ...problem,
    resources: problem.resources.map((resource) => ({ ...resource, assumptionId: resource.id })),
    assumptions: [...(problem.assumptions ?? []), ...assumptions],
  }
}

export function explainedSummary(explained: readonly Explained[]): string {
  const middle = (of: (one: Explained) => number) =>
    explained.map(of).toSorted((a, b) => a - b)[explained.length >> 1] ?? 0
  const most = (of: (one: Explained) => number) => Math.max(0, ...explained.map(of))
  return [
    `# ${explained.length} infeasible explained: ${explained.filter(({ isMinimal }) => isMinimal).length} minimal, median ${middle(({ members }) => members)} members, most ${most(({ members }) => members)}`,
    `# conflict named in ${middle(({ coreCpuS }) => coreCpuS).toFixed(2)} s (median), ${most(({ coreCpuS }) => coreCpuS).toFixed(2)} s (longest); with remedies ${most(({ allCpuS }) => allCpuS).toFixed(2)} s (longest)`,
    `# ${explained.filter(({ isFixed }) => isFixed).length} fixed by their cheapest remedy, applied and checked; ${explained.filter(({ isBeyondLags }) => isBeyondLags).length} were impossible whatever the lags`,
  ].join('\n')
}
