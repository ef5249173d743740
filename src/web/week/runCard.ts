/** One run, as a board's label and whoever follows it need it: what it is, how it stands, what comes. */
import type { RunState } from '#core/logbook/state.ts'
import type { Plan, PlannedRun, RunTask } from '#core/planning/plan.ts'
import { countText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { dayText, momentText } from '#words/times.ts'
import { coverTexts } from '#words/trade.ts'
import { windowText } from '#words/tasks.ts'
import type { Studio } from '../data/queries.ts'

type View = { readonly plan: Plan; readonly studio: Studio; readonly context: Context }

export type RunCardSaid = {
  readonly title: string
  /** Since when it is clay, where and under what it stands. */
  readonly stands: readonly string[]
  readonly coming: readonly RunTask[]
  /** The next step of hands, with its window; empty where nothing more is planned. */
  readonly next: string
}

export function runCard(run: PlannedRun, state: RunState | undefined, { plan, studio, context }: View): RunCardSaid {
  const design = studio.designs.find(({ id }) => id === run.designId)
  const waits = state?.waits.at(-1)
  const spot = studio.spots.find(({ id }) => id === waits?.spotId)?.name
  const isClay = state?.stage === 'clay' || state?.stage === 'drying'
  const coming = plan.tasks.filter(({ runId }) => runId === run.id).toSorted((a, b) => a.startMin - b.startMin)
  const step = coming.find(({ kind }) => kind === 'step')
  const stepName = design?.steps.find(({ id }) => id === step?.stepId)?.name ?? ''
  return {
    title: countText(run.count, design?.name ?? run.designId),
    stands: [
      ...(run.cutMin === null ? [] : [`Cut ${dayText(run.cutMin, context)}`]),
      ...(isClay && waits ? [`${spot ?? waits.spotId}, ${coverTexts[waits.cover]}`] : []),
    ],
    coming,
    next: step
      ? `${stepName}, ${step.window ? windowText(step.window, context) : momentText(step.startMin, context)}`
      : '',
  }
}

export type Label = { readonly key: string; readonly runId: string; readonly board: string }

/** A label for every ware board that stands now, the runs in the order of their cut. */
export function boardLabels({ runs }: Plan, nowMin: number): Label[] {
  const standing = runs.filter(({ underWay }) => underWay).toSorted((a, b) => (a.cutMin ?? 0) - (b.cutMin ?? 0))
  return standing.flatMap(({ id, boards }) => {
    const count = boards
      .filter(({ fromMin, toMin }) => fromMin <= nowMin && nowMin < toMin)
      .reduce((sum, { boardCount }) => sum + boardCount, 0)
    return Array.from({ length: count }, (_, i) => ({
      key: `${id} ${i}`,
      runId: id,
      board: count === 1 ? '' : `board ${i + 1} of ${count}`,
    }))
  })
}

/** Where the label of a run leads. */
export const runAddress = (runId: string): string => `/week?run=${encodeURIComponent(runId)}`
