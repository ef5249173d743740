import { checkSchedule } from '../check.ts'
import type { Assumption, Plan, Problem, Relaxation, Remedy } from '../problem.ts'
import type { Feasibility } from './feasibility.ts'
import { excessOf, isLagsOnly, type Budget } from './remedy.ts'

/**
 * Several relaxations that help together, where none helps alone. One assumption after another, the dearest first, is
 * put in force with those before it if a plan can keep them all (the last plan may do so by itself). What cannot be is
 * relaxed, by as much as the last plan asks. None of the dropped could be kept with all the others, unless the budget
 * of a question ran out.
 * @see Bailey & Stuckey (2005), minimal correction sets by growing a satisfiable subset
 * @returns undefined if nothing is possible even without any assumption, or no plan was found
 */
export function relaxTogether(problem: Problem, feasibility: Feasibility, budget: Budget): Remedy | undefined {
  const assumptions = problem.assumptions ?? []
  const first = feasibility.test([], budget)
  if (first.kind !== 'possible') return undefined
  let { plan } = first
  const kept = new Set<number>()
  const dearestFirst = Array.from(assumptions.keys()).toSorted((a, b) => assumptions[b]!.price - assumptions[a]!.price)
  for (const index of dearestFirst) {
    if (!isKept(problem, assumptions[index]!.id, plan)) {
      const answer = feasibility.test([...kept, index], budget)
      if (answer.kind !== 'possible') continue
      plan = answer.plan
    }
    kept.add(index)
  }
  const dropped = assumptions.filter((_, index) => !kept.has(index))
  const eased = dropped.map((assumption) => easing(problem, assumption, plan))
  return {
    relaxations: eased.map(({ relaxation }) => relaxation),
    price: eased.reduce((sum, { price }) => sum + price, 0),
    plan,
  }
}

/** Whether the plan breaks nothing that hangs on the assumption. */
function isKept(problem: Problem, id: string, plan: Plan): boolean {
  const own = ({ assumptionId }: { readonly assumptionId?: string }) => assumptionId === id
  const { kilns: _, ...withoutKilns } = problem
  const only = {
    ...withoutKilns,
    lags: problem.lags.filter(own),
    monotoneArcs: (problem.monotoneArcs ?? []).filter(own),
    resources: problem.resources.filter(own),
  }
  return checkSchedule(only, plan).length === 0
}

/** Stretched by what the plan asks, if it may be and that is cheaper than dropping it. */
function easing(
  problem: Problem,
  { id, stretch, price }: Assumption,
  plan: Plan,
): { readonly relaxation: Relaxation; readonly price: number } {
  const whole = { relaxation: { assumptionId: id }, price }
  if (!stretch || !isLagsOnly(problem, id)) return whole
  const stretchMin = excessOf(problem, id, plan)
  const stretchPrice = stretchMin * stretch.pricePerMin
  if (stretchMin > stretch.mostMin || stretchPrice >= price) return whole
  return { relaxation: { assumptionId: id, stretchMin }, price: stretchPrice }
}
