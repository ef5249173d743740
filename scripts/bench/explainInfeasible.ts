import { checkSchedule } from '../../src/core/planning/search/check.ts'
import { explain } from '../../src/core/planning/search/explain/explain.ts'
import { planFor, relaxed } from '../../src/core/planning/search/explain/remedy.ts'
import type { Problem } from '../../src/core/planning/search/problem.ts'

export type Explained = {
  readonly members: number
  readonly isMinimal: boolean
  readonly coreCpuS: number
  readonly cheapestPrice: number | undefined
  /** The fix was applied, planned anew and the plan checked. */
  readonly isFixed: boolean
  readonly allCpuS: number
}

/** Explains an infeasible instance, then applies the cheapest remedy and checks the plan that comes of it. */
export function explainInfeasible(problem: Problem, seed: number): Explained {
  const cpuSince = (begun: NodeJS.CpuUsage) => (({ user, system }) => (user + system) / 1e6)(process.cpuUsage(begun))
  const begun = process.cpuUsage()
  const short = explain(problem, { seed, conflicts: 20_000 })
  const coreCpuS = cpuSince(begun)
  const full = explain(problem, { seed, conflicts: 5_000, withRemedies: true })
  const allCpuS = cpuSince(begun) - coreCpuS
  if (short.kind !== 'conflict' || full.kind !== 'conflict') throw new Error(`explained as ${short.kind}`)
  const [cheapest] = full.remedies
  const fixed = cheapest?.relaxations.reduce(relaxed, problem)
  const plan = fixed && planFor(fixed, { seed, conflicts: 100_000, cancelled: () => false })
  return {
    members: short.assumptionIds.length,
    isMinimal: short.isMinimal,
    coreCpuS,
    cheapestPrice: cheapest?.price,
    isFixed: plan !== undefined && checkSchedule(fixed!, plan).length === 0,
    allCpuS,
  }
}

export function explainedSummary(explained: readonly Explained[]): string {
  const middle = (of: (one: Explained) => number) =>
    explained.map(of).toSorted((a, b) => a - b)[explained.length >> 1] ?? 0
  const most = (of: (one: Explained) => number) => Math.max(0, ...explained.map(of))
  return [
    `# ${explained.length} infeasible explained: ${explained.filter(({ isMinimal }) => isMinimal).length} minimal, median ${middle(({ members }) => members)} members, most ${most(({ members }) => members)}`,
    `# conflict named in ${middle(({ coreCpuS }) => coreCpuS).toFixed(2)} s (median), ${most(({ coreCpuS }) => coreCpuS).toFixed(2)} s (longest); with remedies ${most(({ allCpuS }) => allCpuS).toFixed(2)} s (longest)`,
    `# ${explained.filter(({ isFixed }) => isFixed).length} fixed by their cheapest remedy, applied and checked`,
  ].join('\n')
}
