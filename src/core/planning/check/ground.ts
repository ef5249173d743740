/** What the checks stand on: the case, its logbook read afresh, the plan, and ways to find one's way in them. */
import type { Minute, Interval } from '#core/time.ts'
import { withoutIntervals } from '#core/time.ts'
import type { FiringState, LogState, RunState } from '#core/logbook/state.ts'
import type { FiringSchedule } from '#core/firing/types.ts'
import type { Design, DesignStep, Kiln, Maker, Studio } from '#core/studio/studio.ts'
import type { Breach, Plan, PlannedFiring, PlannedRun, PlanningCase, RunTask } from '../plan.ts'

/** Names and amounts of one breach; the check's own name is added to them. */
export type Found = Breach['params']

/** One thing that must never be. Adding a check is one value and one line in `checks`. */
export type Check = { readonly name: string; readonly breachesOf: (ground: Ground) => readonly Found[] }

export type Ground = {
  readonly planningCase: PlanningCase
  readonly plan: Plan
  readonly studio: Studio
  readonly state: LogState
  readonly nowMin: Minute
  readonly designs: ReadonlyMap<string, Design>
  readonly makers: ReadonlyMap<string, Maker>
  readonly kilns: ReadonlyMap<string, Kiln>
  readonly schedules: ReadonlyMap<string, FiringSchedule>
  readonly runs: ReadonlyMap<string, PlannedRun>
  readonly firings: ReadonlyMap<string, PlannedFiring>
  readonly logRuns: ReadonlyMap<string, RunState>
  readonly logFirings: ReadonlyMap<string, FiringState>
  /** A run's tasks by their end. */
  readonly tasksOf: (runId: string) => readonly RunTask[]
  /** What becomes of a run's clay; null for a run that is not clay. */
  readonly futuresOf: (run: PlannedRun) => Futures | null
}

/** A run's clay in the common draws. */
export type Futures = {
  /** By draw: all clay steps to come fall inside their windows. */
  readonly held: readonly boolean[]
  /** Share of the draws in which the built piece is dry at its thickest spot at `minute`. */
  readonly oddsDryAt: (minute: Minute) => number
}

/** The run's design; the plan is known to be sound. */
export const designOf = ({ designs }: Pick<Ground, 'designs'>, run: PlannedRun): Design => designs.get(run.designId)!

export const stepOf = (ground: Ground, task: RunTask): DesignStep | undefined => {
  const run = ground.runs.get(task.runId)
  return run && designOf(ground, run).steps.find(({ id }) => id === task.stepId)
}

const firedKinds: ReadonlySet<string> = new Set(['glaze', 'finish', 'pack'])
export const isClayStep = ({ kind }: DesignStep): boolean => !firedKinds.has(kind)
export const clayStepsOf = ({ steps }: Design): readonly DesignStep[] => steps.filter(isClayStep)

/** Bisque from the shelf: it comes into the plan fired once, and as nobody's run. */
export const isFromShelf = ({ id, underWay }: PlannedRun): boolean => !underWay && id.startsWith('shelf:')

/** How far the logbook has it; a run of the plan's own has still to be begun. */
export const stageOf = ({ logRuns }: Pick<Ground, 'logRuns'>, run: PlannedRun): RunState['stage'] =>
  isFromShelf(run) ? 'bisque' : ((run.underWay ? logRuns.get(run.id)?.stage : undefined) ?? 'begun')

/** Pieces of a run in a firing. */
export const membersOf = ({ members }: PlannedFiring, runId: string, glazeId?: string | null): number =>
  members
    .filter((member) => member.runId === runId && (glazeId === undefined || member.glazeId === glazeId))
    .reduce((sum, { count }) => sum + count, 0)

/** A maker's hours of one sort, less the time they are away after all. */
export const hoursOf = (
  { state }: Ground,
  maker: Maker,
  sort: 'makingHours' | 'lookInHours' | 'kilnWatchHours',
): readonly Interval[] =>
  withoutIntervals(
    sort === 'makingHours' ? maker.makingHours : [...maker[sort], ...maker.makingHours],
    state.away.filter(({ makerId }) => makerId === maker.id),
  )

/** Whether one of these spans holds all of [startMin, endMin). */
export const isWithin = (spans: readonly Interval[], startMin: Minute, endMin: Minute): boolean =>
  spans.some((span) => span.startMin <= startMin && endMin <= span.endMin)

/** `count` of something, taken from a moment up to another. `ours`: the plan's doing, not a fact of the logbook. */
export type Taken = { readonly fromMin: Minute; readonly toMin: Minute; readonly count: number; readonly ours: boolean }

/**
 * The first moment at which more is taken than there is, if the plan has a hand in it: what already stands too close by
 * the logbook is no fault of a plan.
 */
export function overfull(
  taken: readonly Taken[],
  capacity: number,
): { readonly minute: Minute; readonly count: number } | null {
  const moments = [...new Set(taken.map(({ fromMin }) => fromMin))].toSorted((a, b) => a - b)
  for (const minute of moments) {
    const here = taken.filter(({ fromMin, toMin }) => fromMin <= minute && minute < toMin)
    const count = here.reduce((sum, one) => sum + one.count, 0)
    if (count > capacity && here.some(({ ours }) => ours)) return { minute, count }
  }
  return null
}
