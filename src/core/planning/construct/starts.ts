/** When a run may be cut, and which slots are wanted for a step: pins first, then what the potter has already seen. */
import type { DesignStep } from '#core/studio/studio.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import type { Desk } from './desk.ts'
import { anybodyMay, candidateSlots, freeMinutes, isFree, longestSpan, type Slot } from './diary.ts'
import { isWantedSoon } from './runFacts.ts'

export type CutSlot = { readonly slot: Slot; readonly pinned: boolean }

/** Slots to try for the cut, best first: pinned, as shown, then from the leaning's lead time on, then from now on. */
export function cutSlots(
  desk: Desk,
  job: Job,
  cut: DesignStep,
  durationMin: number,
  limit: number,
): readonly CutSlot[] | PlanningReason {
  const { nowMin, horizonMin } = desk.given
  const wanted = wantedSlot(desk, job.id, cut, durationMin)
  if (wanted?.only) {
    return isFree(desk.diary, 'making', wanted.slot)
      ? [{ slot: wanted.slot, pinned: true }]
      : { code: 'pins-contradict', params: { step: cut.name, pinnedMin: wanted.slot.startMin } }
  }
  const dueMin = Math.min(job.dueMin, horizonMin)
  const isSoon = isWantedSoon(job, desk.leaning.soonOrderIds)
  const fromMin = isSoon ? nowMin : Math.max(nowMin, dueMin - desk.leaning.leadDays * MIN_PER_DAY)
  const slots = candidateSlots(desk.diary, 'making', cut.needs, durationMin, fromMin, horizonMin, limit)
  const sooner =
    fromMin > nowMin ? candidateSlots(desk.diary, 'making', cut.needs, durationMin, nowMin, fromMin, limit) : []
  const all = [...(wanted ? [wanted.slot] : []), ...slots, ...sooner]
  if (all.length === 0) return whyNoSlot(desk, cut, durationMin)
  return all.map((slot) => ({ slot, pinned: false }))
}

/** Why no maker can do this step at all. */
export function whyNoSlot(desk: Desk, step: DesignStep, durationMin: number): PlanningReason {
  const { nowMin, horizonMin } = desk.given
  if (!anybodyMay(desk.diary, step.needs)) return { code: 'nobody-may', params: { work: step.needs, step: step.name } }
  const freeMin = freeMinutes(desk.diary, step.needs, nowMin, horizonMin)
  if (freeMin === 0) return { code: 'no-making-hours', params: { work: step.needs } }
  const longestMin = longestSpan(desk.diary, step.needs, nowMin, horizonMin)
  if (longestMin < durationMin) {
    return { code: 'step-longer-than-any-session', params: { step: step.name, neededMin: durationMin, longestMin } }
  }
  return {
    code: 'not-enough-hours',
    params: { work: step.needs, neededMin: durationMin, freeMin, untilMin: horizonMin },
  }
}

/** The slot that a pin demands, or that the plan before gave to today or tomorrow. */
export function wantedSlot(
  desk: Desk,
  runId: string,
  step: DesignStep,
  durationMin: number,
): { readonly slot: Slot; readonly only: boolean } | null {
  const { planningCase, studio, nowMin } = desk.given
  const pin = studio.pins.find((candidate) => candidate.runId === runId && candidate.stepId === step.id)
  if (pin) {
    const able = studio.makers.filter(
      ({ id, skills }) => (pin.makerId === null || id === pin.makerId) && skills.includes(step.needs),
    )
    const slots = able.map(({ id }) => ({ makerId: id, startMin: pin.startMin, endMin: pin.startMin + durationMin }))
    const slot = slots.find((candidate) => isFree(desk.diary, 'making', candidate)) ?? slots[0]
    return slot ? { slot, only: true } : null
  }
  if (!desk.leaning.holds) return null
  const shown = planningCase.basePlan?.tasks.find(
    (task) => task.runId === runId && task.stepId === step.id && task.glazeId === null,
  )
  if (!shown || shown.startMin >= planningCase.holdUntilMin || shown.startMin < nowMin) return null
  const slot = { makerId: shown.makerId, startMin: shown.startMin, endMin: shown.startMin + durationMin }
  return isFree(desk.diary, 'making', slot) ? { slot, only: false } : null
}
