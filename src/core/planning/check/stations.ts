/**
 * A run's stations in their order, clay steps, bisque, glazing, glaze firing, finishing, and the pieces that come to and
 * leave each of them in a plan. What the logbook has behind them has left long ago.
 */
import type { RunStage } from '#core/logbook/state.ts'
import type { DesignStep } from '#core/studio/studio.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Minute } from '#core/time.ts'
import type { PlannedRun } from '../plan.ts'
import type { Ground } from './ground.ts'
import { clayStepsOf, designOf, isClayStep, membersOf, stageOf } from './ground.ts'

/** Pieces at a station: they come at `startMin` and leave at `endMin`, bearing `glazeId` (null: bare, or not said). */
export type Visit = {
  readonly startMin: Minute
  readonly endMin: Minute
  readonly count: number
  readonly glazeId: string | null
  readonly by: string
}

export type Station = {
  readonly name: string
  readonly kind: 'clay' | 'glazing' | 'finishing' | FiringKind
  /** By the logbook all of the run is past it. */
  readonly isPast: boolean
  readonly visits: readonly Visit[]
}

export function stationsOf(ground: Ground, run: PlannedRun): readonly Station[] {
  const design = designOf(ground, run)
  const stage = stageOf(ground, run)
  const bench = design.steps.filter((step) => !isClayStep(step))
  const doneStepIds = ground.logRuns.get(run.id)?.doneStepIds ?? []
  const stepStation = (step: DesignStep, kind: Station['kind'], isPast: boolean): Station => ({
    name: step.id,
    kind,
    isPast,
    visits: ground
      .tasksOf(run.id)
      .filter((task) => task.kind === 'step' && task.stepId === step.id)
      .map(({ startMin, endMin, count, glazeId, id }) => ({ startMin, endMin, count, glazeId, by: id })),
  })
  const firingStation = (kind: FiringKind): Station => ({
    name: kind,
    kind,
    isPast: isFired(stage, kind),
    visits: ground.plan.firings
      .filter((firing) => firing.kind === kind && membersOf(firing, run.id) > 0)
      .flatMap(({ id, members, loadMin, emptyMin }) =>
        members
          .filter(({ runId }) => runId === run.id)
          .map(({ count, glazeId }) => ({ startMin: loadMin, endMin: emptyMin, count, glazeId, by: id })),
      ),
  })
  const clayIsPast = !['begun', 'clay'].includes(stage)
  return [
    ...clayStepsOf(design).map((step) => stepStation(step, 'clay', clayIsPast || doneStepIds.includes(step.id))),
    firingStation('bisque'),
    ...bench.filter(({ kind }) => kind === 'glaze').map((step) => stepStation(step, 'glazing', isGlazed(stage))),
    firingStation('glaze'),
    ...bench.filter(({ kind }) => kind !== 'glaze').map((step) => stepStation(step, 'finishing', false)),
  ]
}

const bisqued: ReadonlySet<RunStage> = new Set(['bisque', 'glazed', 'in glaze', 'fired', 'refire'])
const isFired = (stage: RunStage, kind: FiringKind): boolean =>
  kind === 'bisque' ? bisqued.has(stage) : stage === 'fired'
const isGlazed = (stage: RunStage): boolean => bisqued.has(stage) && stage !== 'bisque'

/** Pieces that have come to a station by `minute`, or left it, of one glaze if it is named. */
export const comeBy = ({ visits }: Station, minute: Minute, glazeId?: string | null): number =>
  countOf(visits.filter((visit) => visit.startMin <= minute && bears(visit, glazeId)))
export const leftBy = ({ visits }: Station, minute: Minute, glazeId?: string | null): number =>
  countOf(visits.filter((visit) => visit.endMin <= minute && bears(visit, glazeId)))

const bears = (visit: Visit, glazeId: string | null | undefined): boolean =>
  glazeId === undefined || visit.glazeId === glazeId
export const countOf = (things: readonly { readonly count: number }[]): number =>
  things.reduce((sum, { count }) => sum + count, 0)

/** Pieces of a run that have left its last station by `minute`. */
export function readyBy(ground: Ground, run: PlannedRun, minute: Minute): number {
  const last = stationsOf(ground, run).at(-1)!
  return last.isPast ? run.count : leftBy(last, minute)
}
