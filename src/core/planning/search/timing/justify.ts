import type { Indexed } from '../indexed.ts'
import { LEFT_OUT, type Schedule } from '../schedule.ts'
import { createRoom } from './room.ts'

/**
 * Pushes every task as late as it can go before `endMin` (those that end last first), then pulls every one as early as
 * it can go: gaps close, and the whole often ends sooner.
 * @see Valls, Ballestín, Quintanilla (2005), Justification and RCPSP, EJOR 165
 * @returns the starts
 */
export function justified(indexed: Indexed, schedule: Schedule): Int32Array {
  const room = createRoom(indexed, schedule)
  const { start, durationOf } = room
  const done = Array.from(start.keys()).filter((task) => schedule.mode[task] !== LEFT_OUT)
  const endOf = (task: number) => start[task]! + durationOf(task)
  const endMin = done.reduce((last, task) => Math.max(last, endOf(task)), 0)
  for (const task of done.toSorted((a, b) => endOf(b) - endOf(a) || b - a)) room.push(task, endMin - durationOf(task))
  for (const task of done.toSorted((a, b) => start[a]! - start[b]! || a - b)) room.pull(task, 0)
  return start
}
