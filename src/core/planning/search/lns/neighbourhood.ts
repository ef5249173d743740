import type { Rng } from '../../../rng.ts'
import type { Indexed } from '../indexed.ts'
import { LEFT_OUT, type Schedule } from '../schedule.ts'

/** A way to pick what to plan anew while the rest stays. One file and one line in the list each. */
export type Neighbourhood = {
  readonly name: string
  /** About `size` tasks, or none if the schedule offers nothing of the kind. */
  readonly tasks: (view: View, size: number, rng: Rng) => readonly number[]
}

/** A schedule as neighbourhoods look at it. */
export type View = {
  readonly indexed: Indexed
  readonly schedule: Schedule
  /** The tasks that are done. */
  readonly placed: readonly number[]
  /** By task. */
  readonly endOf: (task: number) => number
  readonly durationOf: (task: number) => number
}

export function viewOf(indexed: Indexed, schedule: Schedule): View {
  const durationOf = (task: number) => indexed.modes[task]![schedule.mode[task]!]?.durationMin ?? 0
  const tasks = Array.from({ length: indexed.taskCount }, (_, task) => task)
  return {
    indexed,
    schedule,
    placed: tasks.filter((task) => schedule.mode[task] !== LEFT_OUT),
    durationOf,
    endOf: (task) => schedule.start[task]! + durationOf(task),
  }
}

/** The `count` tasks with the least measure, ties by index. */
export function nearest(tasks: readonly number[], count: number, measure: (task: number) => number): number[] {
  return tasks
    .map((task) => ({ task, distance: measure(task) }))
    .toSorted((a, b) => a.distance - b.distance || a.task - b.task)
    .slice(0, count)
    .map(({ task }) => task)
}
