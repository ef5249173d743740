/** What needs hands now and next, in the order in which the clay stops waiting. */
import type { Minute } from '#core/time.ts'
import type { KilnTask, Plan, RunTask } from './plan.ts'

export type BenchLine = {
  readonly task: RunTask
  /** When the clay stops waiting for it; null where nothing presses. */
  readonly closesMin: Minute | null
}

export type BenchList = {
  /** Steps, the one whose clay waits shortest first; those whose time has come before those that open later. */
  readonly hands: readonly BenchLine[]
  readonly lookIns: readonly RunTask[]
  readonly kiln: readonly KilnTask[]
}

/** The bench list of a plan. @param untilMin what begins later is not on it */
export function benchList(
  { tasks, kilnTasks }: Pick<Plan, 'tasks' | 'kilnTasks'>,
  nowMin: Minute,
  untilMin: Minute,
): BenchList {
  const near = <Task extends { readonly startMin: Minute; readonly endMin: Minute }>(list: readonly Task[]) =>
    list.filter(({ startMin, endMin }) => startMin < untilMin && endMin > nowMin)
  const hands = near(tasks)
    .filter(({ kind }) => kind === 'step')
    .map((task): BenchLine => ({ task, closesMin: task.window?.closeMin ?? null }))
  return {
    hands: hands.toSorted(byPress(nowMin)),
    lookIns: near(tasks).filter(({ kind }) => kind === 'look-in'),
    kiln: near(kilnTasks),
  }
}

/** What is open already comes first, by when it closes; then by when it begins. */
function byPress(nowMin: Minute) {
  const isOpen = ({ task }: BenchLine) => task.window !== null && task.window.openMin <= nowMin
  const press = (line: BenchLine) => (isOpen(line) ? (line.closesMin ?? Number.POSITIVE_INFINITY) : line.task.startMin)
  return (a: BenchLine, b: BenchLine): number =>
    Number(isOpen(b)) - Number(isOpen(a)) || press(a) - press(b) || (a.task.id < b.task.id ? -1 : 1)
}
