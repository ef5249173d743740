/**
 * What the potter has already been shown, kept: a run whose next task falls before the end of tomorrow goes on just as
 * the plan before said, if its clay still bears it and its hands are still free.
 */
import type { DesignStep } from '#core/studio/studio.ts'
import type { Job } from '../jobs.ts'
import type { RunTask } from '../plan.ts'
import type { Desk } from './desk.ts'
import { isFree } from './diary.ts'
import type { Leg } from './settle.ts'

/** A run's tasks up to its last clay step, as shown before; null if they cannot be taken over as they are. */
export function shownChain(desk: Desk, job: Job, steps: readonly DesignStep[]): readonly RunTask[] | null {
  const { planningCase, nowMin } = desk.given
  if (!desk.leaning.holds || !planningCase.basePlan || steps.length === 0) return null
  const all = planningCase.basePlan.tasks.filter(({ runId, glazeId }) => runId === job.id && glazeId === null)
  const last = all.find(({ stepId }) => stepId === steps.at(-1)!.id)
  if (!last) return null
  const chain = all.filter(({ startMin, endMin }) => startMin >= nowMin && endMin <= last.endMin)
  if (chain.length === 0 || chain[0]!.startMin >= planningCase.holdUntilMin) return null
  const stepTasks = chain.filter(({ kind }) => kind === 'step')
  const isWhole = stepTasks.length === steps.length && steps.every(({ id }, i) => stepTasks[i]!.stepId === id)
  const isSameCount = chain.every(({ count }) => count === job.count)
  const isStillFree = chain.every((task) => isFree(desk.diary, task.kind === 'step' ? 'making' : 'look-in', task))
  const pins = desk.given.studio.pins.filter(({ runId }) => runId === job.id)
  const keepsPins = pins.every(({ stepId, startMin, makerId }) => {
    const task = stepTasks.find((candidate) => candidate.stepId === stepId)
    return !task || (task.startMin === startMin && (makerId === null || task.makerId === makerId))
  })
  return isWhole && isSameCount && isStillFree && keepsPins ? chain : null
}

/** The legs that a shown chain walks, from the end of its cut or from now. */
export function legsOfChain(
  chain: readonly RunTask[],
  start: Pick<Leg, 'fromMin' | 'spotId' | 'over'>,
  workOf: (task: RunTask) => Pick<Leg['work'], 'band' | 'partIndexes'>,
): Leg[] {
  const legs: Leg[] = []
  let before: RunTask | null = null
  let visits: RunTask[] = []
  for (const task of chain) {
    if (task.kind === 'look-in') {
      visits.push(task)
      continue
    }
    if (before !== null || task.window !== null) {
      const deciding = [...(before ? [before] : []), ...visits].find(({ parkWhen }) => parkWhen !== null)
      legs.push({
        fromMin: before?.endMin ?? start.fromMin,
        spotId: before?.after?.spotId ?? start.spotId,
        cover: before?.after?.cover ?? null,
        over: start.over,
        parkWhen: deciding?.parkWhen ?? null,
        parksAtOnce: before !== null && before.parkWhen !== null,
        visits: visits.map(({ startMin, endMin, parkWhen, after }) => ({
          startMin,
          endMin,
          parks: parkWhen !== null,
          cover: after?.cover ?? null,
        })),
        work: { fromMin: task.startMin, toMin: task.endMin, ...workOf(task) },
      })
    }
    before = task
    visits = []
  }
  return legs
}
