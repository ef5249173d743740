import { indexProblem, type Indexed } from '../indexed.ts'
import { impossibleCycle, isFirm } from '../longestPaths.ts'
import type { Assumption, Explanation, Problem, Remedy } from '../problem.ts'
import { shrinkCore } from './core.ts'
import { createFeasibility, MOST_PAIRED, type Answer, type Feasibility } from './feasibility.ts'
import { pathCore } from './pathCore.ts'
import { cheapestRelaxation } from './remedy.ts'
import { relaxTogether } from './together.ts'

export type ExplainOptions = {
  readonly seed: number
  /** Budget of each single question. */
  readonly conflicts: number
  readonly cancelled?: () => boolean
  /** Without it only the conflict is named. */
  readonly withRemedies?: boolean
}

/**
 * Why nothing satisfies the problem: a conflict among its assumptions, shrunk until each member is needed, and what
 * would help: single relaxations, cheapest first, or several together if none helps alone.
 */
export function explain(problem: Problem, options: ExplainOptions): Explanation {
  const limits = { conflicts: options.conflicts, cancelled: options.cancelled ?? (() => false) }
  const feasibility = createFeasibility(problem, options.seed)
  const assumptions = problem.assumptions ?? []
  const indexed = indexProblem({ ...problem, costs: [] })
  const ofPaths = indexed.taskCount <= MOST_PAIRED ? pathCore(indexed) : undefined
  const answer: Answer = ofPaths
    ? { kind: 'impossible', core: ofPaths }
    : feasibility.test(Array.from(assumptions.keys()), limits)
  if (answer.kind === 'possible') return { kind: 'feasible', plan: answer.plan }
  if (answer.kind === 'open') return { kind: 'no-proof' }
  const core = shrinkCore(feasibility, answer.core, limits)
  const members = core.assumptions.map((index) => assumptions[index]!)
  const cycle = cycleAmong(indexed, members)
  return {
    kind: 'conflict',
    assumptionIds: members.map(({ id }) => id),
    isMinimal: core.isMinimal,
    ...(cycle ? { cycle } : {}),
    remedies: options.withRemedies ? remediesFor(problem, members, feasibility, options) : [],
  }
}

/** If the members alone are at odds round a cycle of lags, what each lag of it asks. */
function cycleAmong(indexed: Indexed, members: readonly Assumption[]) {
  const ids = new Set(members.map(({ id }) => id))
  const links = indexed.links.filter((link) =>
    link.assumption >= 0
      ? ids.has(indexed.problem.assumptions![link.assumption]!.id) && isFirm(indexed, { ...link, assumption: -1 })
      : isFirm(indexed, link),
  )
  return impossibleCycle(indexed.taskCount + 1, links)?.map(({ reason }) => reason)
}

function remediesFor(
  problem: Problem,
  members: readonly Assumption[],
  feasibility: Feasibility,
  options: ExplainOptions,
): Remedy[] {
  const budget = { ...options, cancelled: options.cancelled ?? (() => false) }
  const single = members.flatMap((member) => cheapestRelaxation(problem, member, budget) ?? [])
  if (single.length > 0) return single.toSorted((a, b) => a.price - b.price)
  const together = relaxTogether(problem, feasibility, budget)
  return together ? [together] : []
}
