/** What would come of a move, and what speaks against it, as sentences. */
import type { OrderPromise, Plan, RunTask } from '#core/planning/plan.ts'
import type { PlanDifference } from '#core/planning/planDifference.ts'
import type { Minute } from '#core/time.ts'
import { oddsText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { reasonText } from '#words/reasons.ts'
import { taskText } from '#words/tasks.ts'
import { dateText, dayKey, momentText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'
import type { Doubt, Place } from './moving.ts'

type PromiseChange = { readonly before: OrderPromise | null; readonly after: OrderPromise | null }

/** The server's answer: the plan as it would be, and what of it is otherwise. */
export type Supposed = {
  readonly plan: Plan
  readonly steps: Pick<PlanDifference, 'moved' | 'gone' | 'added'>
  readonly promises: readonly PromiseChange[]
}

export type MoveOutcome = {
  /** Whether it can stand there at all. */
  readonly isPlaced: boolean
  /** Why not; empty where it can. */
  readonly why: readonly string[]
  readonly moves: readonly string[]
  readonly promises: readonly string[]
}

type Say = {
  readonly studio: Studio
  readonly context: Context
  /** The plan on screen, which knows the runs that would be gone. */
  readonly shown: Pick<Plan, 'runs'>
}

export function outcomeOf(supposed: Supposed, task: RunTask, place: Place, say: Say): MoveOutcome {
  const { plan, steps, promises } = supposed
  const isOwn = ({ runId, stepId }: Pick<RunTask, 'runId' | 'stepId'>) => runId === task.runId && stepId === task.stepId
  const isPlaced = plan.tasks.some((other) => isOwn(other) && other.startMin === place.startMin)
  const reasons = plan.leftOut.flatMap(({ runId, reasons }) =>
    // A run that cannot be begun has no name: it is known by the moment that it was pinned to.
    reasons.filter(
      ({ code, params }) => runId === task.runId || (code === 'pins-contradict' && params.pinnedMin === place.startMin),
    ),
  )
  const known = { runs: [...plan.runs, ...say.shown.runs] }
  const told = [...new Set(reasons.map((reason) => reasonText(reason, say.context)))]
  return {
    isPlaced,
    why: isPlaced ? [] : told.length > 0 ? told : ['No way was found to do it then, by that maker.'],
    moves: movesOf(steps, isOwn)
      .toSorted((a, b) => a.atMin - b.atMin)
      .map(({ before, after }) => moveText(before, after, known, say)),
    promises: promises.flatMap((change) => promiseTexts(change, say)),
  }
}

type Move = { readonly before: RunTask | null; readonly after: RunTask | null; readonly atMin: Minute }

/** Moved, gone or new, each by the sooner of its times: what is near matters most. */
function movesOf({ moved, gone, added }: Supposed['steps'], isOwn: (task: RunTask) => boolean): Move[] {
  return [
    ...moved.map(({ before, after }) => ({ before, after, atMin: Math.min(before.startMin, after.startMin) })),
    ...gone.map((before) => ({ before, after: null, atMin: before.startMin })),
    ...added.map((after) => ({ before: null, after, atMin: after.startMin })),
  ].filter(({ before, after }) => !isOwn((after ?? before)!))
}

function moveText(
  before: RunTask | null,
  after: RunTask | null,
  known: Pick<Plan, 'runs'>,
  { studio, context }: Say,
): string {
  const text = taskText((after ?? before)!, known, studio)
  if (!before) return `New: ${text}, ${momentText(after!.startMin, context)}`
  if (!after) return `No longer planned: ${text}, ${momentText(before.startMin, context)}`
  const makerName = (id: string) => studio.makers.find((maker) => maker.id === id)?.name ?? id
  const isSameMaker = before.makerId === after.makerId
  const by = isSameMaker ? '' : `, ${makerName(before.makerId)} to ${makerName(after.makerId)}`
  if (before.startMin === after.startMin) return `${text}${by}`
  return `${text}: ${momentText(before.startMin, context)} to ${momentText(after.startMin, context)}${by}`
}

function promiseTexts({ before, after }: PromiseChange, { studio, context }: Omit<Say, 'shown'>): string[] {
  const either = after ?? before
  if (!either) return []
  const order = studio.orders.find(({ id }) => id === either.orderId)?.name ?? either.orderId
  const design = studio.designs.find(({ id }) => id === either.designId)?.name ?? either.designId
  const changes = [
    ...changed(before?.onTime ?? 0, after?.onTime ?? 0, (count) => `${count} by the date`),
    ...changed(
      before?.readyMin ?? null,
      after?.readyMin ?? null,
      (minute) => (minute === null ? 'not placed' : `packed ${dateText(minute, context)}`),
      (minute) => (minute === null ? '' : dayKey(minute, context)),
    ),
    ...(before && after ? changed(before.odds, after.odds, (odds) => `odds ${oddsText(odds)}`, oddsText) : []),
  ]
  return changes.length === 0 ? [] : [`${order}, ${design}: ${changes.join('; ')}`]
}

/** "8 by the date, was 6"; nothing where both are said alike. */
const changed = <Value>(
  before: Value,
  after: Value,
  said: (value: Value) => string,
  alike: (value: Value) => unknown = (value) => value,
): string[] => (alike(before) === alike(after) ? [] : [`${said(after)}, was ${said(before)}`])

/** What speaks against a place at first sight. */
export function doubtText(doubt: Doubt, makerName: string, plan: Plan, studio: Studio): string {
  switch (doubt.kind) {
    case 'past':
      return 'This moment has passed.'
    case 'before-window':
      return 'The clay is likely still too soft then: the window opens later.'
    case 'after-window':
      return 'The clay is likely too dry by the end of it: the window closes before.'
    case 'outside-hours':
      return `${makerName} has no making hours for all of it then.`
    case 'busy':
      return `${makerName} has this in hand then: ${taskText(doubt.with, plan, studio)}.`
  }
}
