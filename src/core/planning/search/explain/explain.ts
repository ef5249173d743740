import { indexProblem } from '../indexed.ts'
import { impossibleCycle, isFirm } from '../longestPaths.ts'
import type { Assumption, Explanation, Problem, Remedy } from '../problem.ts'
import { shrinkCore } from './core.ts'
import { createFeasibility } from './feasibility.ts'
import { cheapestRelaxation, planFor, relaxed } from './remedy.ts'

export type ExplainOptions = {
  readonly seed: number
  /** Budget of each single question. */
  readonly conflicts: number
  readonly cancelled?: () => boolean
  /** Without it only the conflict is named. */
  readonly withRemedies?: boolean
}

/** At most so many conflicts are resolved one after another before remedies are given up. */
const MOST_RELAXED = 40

/**
 * Why nothing satisfies the problem: a conflict among its assumptions, shrunk until each member is needed, and what
 * would help: single relaxations, cheapest first, or several together if none helps alone.
 */
export function explain(problem: Problem, options: ExplainOptions): Explanation {
  const limits = { conflicts: options.conflicts, cancelled: options.cancelled ?? (() => false) }
  const feasibility = createFeasibility(problem, options.seed)
  const assumptions = problem.assumptions ?? []
  const answer = feasibility.test(Array.from(assumptions.keys()), limits)
  if (answer.kind === 'possible') return { kind: 'feasible', plan: answer.plan }
  if (answer.kind === 'open') return { kind: 'no-proof' }
  const core = shrinkCore(feasibility, answer.core, limits)
  const members = core.assumptions.map((index) => assumptions[index]!)
  const cycle = cycleAmong(problem, members)
  return {
    kind: 'conflict',
    assumptionIds: members.map(({ id }) => id),
    isMinimal: core.isMinimal,
    ...(cycle ? { cycle } : {}),
    remedies: options.withRemedies ? remediesFor(problem, members, options) : [],
  }
}

/** If the members alone are at odds round a cycle of lags, what each lag of it asks. */
function cycleAmong(problem: Problem, members: readonly Assumption[]) {
  const ids = new Set(members.map(({ id }) => id))
  const indexed = indexProblem({ ...problem, costs: [] })
  const links = indexed.links.filter((link) =>
    link.assumption >= 0
      ? ids.has(problem.assumptions![link.assumption]!.id) && isFirm(indexed, { ...link, assumption: -1 })
      : isFirm(indexed, link),
  )
  return impossibleCycle(indexed.taskCount + 1, links)?.map(({ reason }) => reason)
}

function remediesFor(problem: Problem, members: readonly Assumption[], options: ExplainOptions): Remedy[] {
  const budget = { ...options, cancelled: options.cancelled ?? (() => false) }
  const single = members.flatMap((member) => cheapestRelaxation(problem, member, budget) ?? [])
  if (single.length > 0) return single.toSorted((a, b) => a.price - b.price)
  const several = relaxSeveral(problem, members, options)
  return several ? [several] : []
}

/** Drops the cheapest member of one conflict after another until nothing is at odds any more. */
function relaxSeveral(problem: Problem, members: readonly Assumption[], options: ExplainOptions): Remedy | undefined {
  const budget = { ...options, cancelled: options.cancelled ?? (() => false) }
  let left = problem
  let inConflict = members
  const dropped: Assumption[] = []
  while (dropped.length < MOST_RELAXED && inConflict.length > 0) {
    const [cheapest] = inConflict.toSorted((a, b) => a.price - b.price)
    dropped.push(cheapest!)
    left = relaxed(left, { assumptionId: cheapest!.id })
    const plan = planFor(left, budget)
    if (plan) {
      const price = dropped.reduce((sum, one) => sum + one.price, 0)
      return { relaxations: dropped.map(({ id }) => ({ assumptionId: id })), price, plan }
    }
    const next = explain(left, { ...options, withRemedies: false })
    if (next.kind !== 'conflict') return undefined
    inConflict = (left.assumptions ?? []).filter(({ id }) => next.assumptionIds.includes(id))
  }
  return undefined
}
