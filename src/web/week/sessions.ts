/** Hands of a maker that follow one another, as sessions. */
import type { RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Span } from './lane.ts'

export type Session = {
  readonly key: string
  readonly makerId: string
  readonly startMin: Minute
  readonly endMin: Minute
  readonly tasks: readonly RunTask[]
}

/** Between hands of one session no more than this passes. */
const PAUSE_MIN = 60

/** Steps and look-ins that one maker does in one go, in the order of their start. */
export function sessionsOf(tasks: readonly RunTask[], { fromMin, toMin }: Span): Session[] {
  const sessions: Session[] = []
  const coming = tasks.filter(({ startMin, endMin }) => endMin > fromMin && startMin < toMin)
  for (const task of coming.toSorted((a, b) => a.startMin - b.startMin)) {
    const { makerId, startMin, endMin } = task
    const at = sessions.findLastIndex((session) => session.makerId === makerId)
    const last = sessions[at]
    if (last && startMin - last.endMin <= PAUSE_MIN)
      sessions[at] = { ...last, endMin: Math.max(last.endMin, endMin), tasks: [...last.tasks, task] }
    else sessions.push({ key: task.id, makerId, startMin, endMin, tasks: [task] })
  }
  return sessions
}
