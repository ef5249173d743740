/** Moulds: counted, and busy while ware lies over them. */
import type { DesignStep } from '#core/studio/studio.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Job } from '../jobs.ts'
import type { RunTask } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import type { Desk } from './desk.ts'
import type { Slot } from './diary.ts'
import { leastFree, take } from './room.ts'
import { claySteps } from './runFacts.ts'

/** Moulds are busy from the drape to the end of the step that frees them. */
export function takeMoulds(desk: Desk, job: Job, tasks: readonly RunTask[]): PlanningReason | null {
  const steps = claySteps(job)
  const at = steps.findIndex(({ kind, mouldId }) => kind === 'drape' && mouldId !== null)
  const drape = steps[at]
  if (!drape) return null
  const done = job.state?.doneStepIds ?? []
  const freeing = steps[at + 1]
  const isOver = done.includes(drape.id) && !(freeing && done.includes(freeing.id))
  const task = tasks.find(({ stepId }) => stepId === drape.id)
  const fromMin = isOver ? desk.given.nowMin : task?.startMin
  if (fromMin === undefined) return null
  const untilMin = tasks.find(({ stepId }) => stepId === freeing?.id)?.endMin ?? task?.endMin ?? fromMin
  const room = desk.moulds.get(drape.mouldId!)
  if (!isOver && (!room || leastFree(room, fromMin, untilMin) < job.count))
    return { code: 'no-mould', params: { mould: drape.name } }
  if (room) take(room, job.count, fromMin, untilMin)
  return null
}

/** Whether enough moulds are free when a step that drapes begins. */
export function mouldsFree(desk: Desk, job: Job, step: DesignStep, slot: Slot): boolean {
  if (step.kind !== 'drape' || step.mouldId === null) return true
  const room = desk.moulds.get(step.mouldId)
  return room !== undefined && leastFree(room, slot.startMin, slot.endMin + MIN_PER_DAY) >= job.count
}
