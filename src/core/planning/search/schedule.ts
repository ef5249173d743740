import type { Indexed } from './indexed.ts'
import type { Placed, Plan } from './problem.ts'

/** A plan by numbers, in minutes from the start of the horizon. */
export type Schedule = {
  /** By task; of no meaning for one that is left out. */
  readonly start: Int32Array
  /** By task: the mode taken, or `LEFT_OUT`. */
  readonly mode: Int32Array
  /** By task: the slot (a task) it is fired in, or -1. */
  readonly slot: Int32Array
  /** By level. */
  readonly costs: readonly number[]
}

export const LEFT_OUT = -1

export function toPlan({ problem }: Indexed, { start, mode, slot }: Schedule): Plan {
  const placed: Placed[] = []
  const leftOutIds: string[] = []
  problem.tasks.forEach((task, index) => {
    const taken = task.modes[mode[index]!]
    if (!taken) {
      leftOutIds.push(task.id)
      return
    }
    const startMin = start[index]! + problem.horizon.startMin
    placed.push({
      taskId: task.id,
      modeId: taken.id,
      startMin,
      endMin: startMin + taken.durationMin,
      ...(slot[index]! < 0 ? {} : { slotId: problem.tasks[slot[index]!]!.id }),
    })
  })
  return { placed, leftOutIds }
}

/** Whether `a` is better: less at the first level at which they differ. */
export function isBetter(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((cost, level) => cost !== b[level])
  return at >= 0 && a[at]! < b[at]!
}
