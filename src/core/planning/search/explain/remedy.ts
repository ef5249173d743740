import type { Assumption, Plan, Point, Problem, Relaxation, Remedy } from '../problem.ts'
import { origin } from '../problem.ts'
import { solve } from '../solve.ts'

export type Budget = { readonly seed: number; readonly conflicts: number; readonly cancelled: () => boolean }

/**
 * The least stretch (or the drop) of one assumption after which everything else can hold, by bisection: what a plan
 * without it asks too much is enough, and half of that is tried, and so on.
 * @returns undefined if it does not help alone, or if that was not found out within the budget
 */
export function cheapestRelaxation(problem: Problem, assumption: Assumption, budget: Budget): Remedy | undefined {
  const { id, stretch, price } = assumption
  const withoutIt = planFor(relaxed(problem, { assumptionId: id }), budget)
  if (!withoutIt) return undefined
  const dropped: Remedy = { relaxations: [{ assumptionId: id }], price, plan: withoutIt }
  if (!stretch || !isLagsOnly(problem, id)) return dropped

  let enough = { minutes: excessOf(problem, id, withoutIt), plan: withoutIt }
  let tooLittle = 0
  while (enough.minutes - tooLittle > 1 && !budget.cancelled()) {
    const middle = (enough.minutes + tooLittle) >> 1
    const plan = planFor(relaxed(problem, { assumptionId: id, stretchMin: middle }), budget)
    // The plan may ask less than it was given.
    if (plan) enough = { minutes: Math.min(middle, excessOf(problem, id, plan)), plan }
    else tooLittle = middle
  }
  const stretchPrice = enough.minutes * stretch.pricePerMin
  if (enough.minutes > stretch.mostMin || stretchPrice >= price) return dropped
  return { relaxations: [{ assumptionId: id, stretchMin: enough.minutes }], price: stretchPrice, plan: enough.plan }
}

/** Only lags can be stretched. */
export function isLagsOnly(problem: Problem, id: string): boolean {
  return ![...problem.resources, ...(problem.monotoneArcs ?? [])].some(({ assumptionId }) => assumptionId === id)
}

/** The problem with something relaxed. */
export function relaxed(problem: Problem, { assumptionId: id, stretchMin }: Relaxation): Problem {
  const isOther = ({ assumptionId }: { readonly assumptionId?: string }) => assumptionId !== id
  if (stretchMin === undefined) {
    const resources = problem.resources.filter(isOther)
    const kept = new Set(resources.map((resource) => resource.id))
    return {
      ...problem,
      lags: problem.lags.filter(isOther),
      monotoneArcs: (problem.monotoneArcs ?? []).filter(isOther),
      resources,
      tasks: problem.tasks.map((task) => ({
        ...task,
        modes: task.modes.map((mode) => ({
          ...mode,
          demands: mode.demands.filter(({ resourceId }) => kept.has(resourceId)),
        })),
      })),
      assumptions: (problem.assumptions ?? []).filter((one) => one.id !== id),
    }
  }
  return {
    ...problem,
    lags: problem.lags.map((lag) =>
      isOther(lag)
        ? lag
        : {
            ...lag,
            ...(lag.minimumMin === undefined ? {} : { minimumMin: lag.minimumMin - stretchMin }),
            ...(lag.maximumMin === undefined ? {} : { maximumMin: lag.maximumMin + stretchMin }),
          },
    ),
  }
}

/** A plan that keeps every assumption, whatever it costs. */
function planFor(problem: Problem, budget: Budget): Plan | undefined {
  return solve({ ...problem, costs: [] }, budget).plan
}

/** By how many minutes the plan breaks the lags of an assumption, at most. */
export function excessOf(problem: Problem, id: string, plan: Plan): number {
  const placed = new Map(plan.placed.map((task) => [task.taskId, task]))
  const timeOf = (point: Point | typeof origin) => {
    if (point === origin) return 0
    const task = placed.get(point.taskId)
    return point.at === 'start' ? task?.startMin : task?.endMin
  }
  return problem.lags.reduce((most, { assumptionId, from, to, minimumMin, maximumMin }) => {
    const fromMin = timeOf(from)
    const toMin = timeOf(to)
    if (assumptionId !== id || fromMin === undefined || toMin === undefined) return most
    const lagMin = toMin - fromMin
    return Math.max(most, (minimumMin ?? lagMin) - lagMin, lagMin - (maximumMin ?? lagMin))
  }, 0)
}
