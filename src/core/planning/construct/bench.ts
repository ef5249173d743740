/** Hands on ware that is no longer clay: glazing, finishing, packing. Elastic work, which gives way to clay. */
import type { Design, DesignStep, StepKind } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { Allotment, RunTask } from '../plan.ts'
import { type Diary, earliestSlot, isFree, longestSpan, type Slot } from './diary.ts'
import { addTask, type Desk, stepTask, taskId } from './desk.ts'

/** What some of a run's pieces bear, and how many of them orders wait for. */
export type GlazePortion = { readonly glazeId: string | null; readonly count: number; readonly neededCount: number }

/**
 * Shares a run's pieces out over the glazes its allotments ask for, the most urgent first; spare pieces go with those, in
 * one dip, or take the design's first glaze if nobody asks for any.
 */
export function glazePortions(design: Design, count: number, allotments: readonly Allotment[]): GlazePortion[] {
  const glazed = design.steps.some(({ kind }) => kind === 'glaze')
  const first = glazed ? (design.glazeIds[0] ?? null) : null
  const wanted = new Map<string | null, number>()
  let left = count
  for (const { glazeId, count: asked } of allotments) {
    const taken = Math.min(left, asked)
    const glaze = glazed ? (glazeId ?? first) : null
    wanted.set(glaze, (wanted.get(glaze) ?? 0) + taken)
    left -= taken
  }
  const portions = [...wanted].map(([glazeId, asked]) => ({ glazeId, count: asked, neededCount: asked }))
  const [most, ...others] = portions
  if (!most) return left > 0 ? [{ glazeId: first, count: left, neededCount: 0 }] : []
  return [{ ...most, count: most.count + left }, ...others]
}

export type HandsDone = { readonly doneMin: Minute; readonly tasks: readonly RunTask[] }

/**
 * Places a design's steps of the given kinds, one after the other, on `count` pieces from `fromMin` on.
 * A step longer than any session is divided over several. Null: no hands before the horizon.
 */
export function placeBenchSteps(
  desk: Desk,
  runId: string,
  design: Design,
  glazeId: string | null,
  count: number,
  kinds: readonly StepKind[],
  fromMin: Minute,
): HandsDone | null {
  let doneMin = fromMin
  const tasks: RunTask[] = []
  for (const step of design.steps.filter(({ kind }) => kinds.includes(kind))) {
    const placed = placeStep(desk, runId, step, glazeId, count, doneMin)
    if (!placed) return null
    tasks.push(...placed.tasks)
    doneMin = placed.doneMin
  }
  return { doneMin, tasks }
}

/** Minutes that a step takes for so many pieces. */
export const stepMin = ({ setupMin, minPerPiece }: DesignStep, count: number): number =>
  Math.ceil(setupMin + minPerPiece * count)

/** The most pieces of a step that fit into `minutes`. */
export const piecesIn = ({ setupMin, minPerPiece }: DesignStep, minutes: number): number =>
  minPerPiece === 0
    ? minutes >= setupMin
      ? Number.MAX_SAFE_INTEGER
      : 0
    : Math.floor((minutes - setupMin) / minPerPiece)

function placeStep(
  desk: Desk,
  runId: string,
  step: DesignStep,
  glazeId: string | null,
  count: number,
  fromMin: Minute,
): HandsDone | null {
  const { horizonMin } = desk.given
  const tasks: RunTask[] = []
  let left = count
  let doneMin = fromMin
  const pinned = desk.given.studio.pins.find((pin) => pin.runId === runId && pin.stepId === step.id)
  while (left > 0) {
    const most = piecesIn(step, longestSpan(desk.diary, step.needs, fromMin, horizonMin))
    if (most < 1) return null
    const pieces = Math.min(left, most)
    const shown = shownSlot(desk, taskId(runId, step.id, glazeId), step, stepMin(step, pieces), fromMin)
    const slot = shown ?? slotFor(desk.diary, step, stepMin(step, pieces), fromMin, horizonMin, pinned)
    if (!slot) return null
    const task = stepTask(runId, step.id, slot, pieces, { glazeId, pinned: pinned !== undefined })
    const again = desk.tasks.filter(({ id }) => id === task.id || id.startsWith(`${task.id}/part`)).length
    const named = again > 0 ? { ...task, id: `${taskId(runId, step.id, glazeId)}/part${again + 1}` } : task
    addTask(desk, named)
    tasks.push(named)
    left -= pieces
    doneMin = Math.max(doneMin, slot.endMin)
  }
  return { doneMin, tasks }
}

/** Where the plan before had it, if that is today or tomorrow and still free. */
function shownSlot(desk: Desk, id: string, step: DesignStep, durationMin: number, fromMin: Minute): Slot | null {
  const { planningCase, studio } = desk.given
  if (!desk.leaning.holds) return null
  const shown = planningCase.basePlan?.tasks.find((task) => task.id === id)
  if (!shown || shown.startMin < fromMin || shown.startMin >= planningCase.holdUntilMin) return null
  if (!studio.makers.some((maker) => maker.id === shown.makerId && maker.skills.includes(step.needs))) return null
  const slot = { makerId: shown.makerId, startMin: shown.startMin, endMin: shown.startMin + durationMin }
  return isFree(desk.diary, 'making', slot) ? slot : null
}

function slotFor(
  diary: Diary,
  step: DesignStep,
  durationMin: number,
  fromMin: Minute,
  horizonMin: Minute,
  pinned?: { startMin: Minute; makerId: string | null },
) {
  if (!pinned) return earliestSlot(diary, 'making', step.needs, durationMin, fromMin, horizonMin - durationMin)
  if (pinned.startMin < fromMin) return null
  return earliestSlot(diary, 'making', step.needs, durationMin, pinned.startMin, pinned.startMin, pinned.makerId)
}
