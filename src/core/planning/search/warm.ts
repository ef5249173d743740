import { checkSchedule } from './check.ts'
import { evaluate } from './evaluate.ts'
import type { Indexed } from './indexed.ts'
import type { Plan } from './problem.ts'
import { LEFT_OUT, type Schedule } from './schedule.ts'

/** A plan from before as a schedule to begin from, if it still breaks nothing. */
export function keptFrom(indexed: Indexed, plan: Plan): Schedule | undefined {
  if (checkSchedule(indexed.problem, plan).length > 0) return undefined
  const { problem, taskOf, taskCount } = indexed
  const start = new Int32Array(taskCount)
  const mode = new Int32Array(taskCount).fill(LEFT_OUT)
  const slot = new Int32Array(taskCount).fill(-1)
  for (const { taskId, modeId, startMin, slotId } of plan.placed) {
    const task = taskOf.get(taskId)!
    start[task] = startMin - problem.horizon.startMin
    mode[task] = problem.tasks[task]!.modes.findIndex(({ id }) => id === modeId)
    if (slotId !== undefined) slot[task] = taskOf.get(slotId)!
  }
  return { start, mode, slot, costs: evaluate(indexed, { start, mode, slot }) }
}
