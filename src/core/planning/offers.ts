/** Moves that would help but touch today or tomorrow: not made, offered. */
import type { Outcome } from './construct/outcome.ts'
import { costNames, type Offer, type PlanningCase } from './plan.ts'

/** Offers worth a potter's attention at once. Our choice. */
const MOST_OFFERS = 5

/** What a plan free to move today and tomorrow would do otherwise, if it is better for it. */
export function offersOf(planningCase: PlanningCase, held: Outcome, free: Outcome): Offer[] {
  const levels = costNames.filter((name) => name !== 'changes')
  const deciding = levels.find((name) => held.costs[name] !== free.costs[name])
  if (!deciding || free.costs[deciding] > held.costs[deciding]) return []
  const gains = levels
    .filter((cost) => free.costs[cost] < held.costs[cost])
    .map((cost) => ({ cost, amount: held.costs[cost] - free.costs[cost] }))
  const freeTasks = new Map(free.tasks.map((task) => [task.id, task]))
  return held.tasks
    .flatMap((task): Offer[] => {
      const other = freeTasks.get(task.id)
      if (
        task.kind !== 'step' ||
        task.startMin >= planningCase.holdUntilMin ||
        !other ||
        other.startMin === task.startMin
      )
        return []
      return [
        {
          id: `offer:${task.id}`,
          taskId: task.id,
          runId: task.runId,
          stepId: task.stepId,
          fromMin: task.startMin,
          toMin: other.startMin,
          makerId: other.makerId,
          gains,
        },
      ]
    })
    .slice(0, MOST_OFFERS)
}
