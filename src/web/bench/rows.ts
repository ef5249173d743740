/** What needs hands, as rows to draw: made from the plan, the log and what was just tapped. */
import type { CoverKind } from '#core/drying/types.ts'
import type { LogState, RunState } from '#core/logbook/state.ts'
import type { KilnTask, Plan, PlannedFiring, PlannedRun, RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { countText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { afterText, kilnDeeds } from '#words/tasks.ts'
import { clockText, dayKey, dayText, durationText } from '#words/times.ts'
import { coverTexts } from '#words/trade.ts'
import type { TapState } from '../data/outbox.ts'
import type { Studio } from '../data/queries.ts'
import { windowWords } from './windowWords.ts'

type Design = Studio['designs'][number]

type Common = {
  readonly key: string
  readonly startMin: Minute
  readonly title: string
  /** Pieces, glaze, kiln: what it is done to. */
  readonly what: string
  /** Where it stands and under what; empty if that does not matter. */
  readonly where: string
  /** The window as a person would say it; empty where the clay does not bound it. */
  readonly window: string
  /** When and how long: "9:15, 40 min; start by 14:20". */
  readonly when: string
  readonly maker: string
  /** What is decided or covered when it is done. */
  readonly after: string
  /** The last tap that answers it, unless taken back. */
  readonly tap: TapState | null
}

export type HandRow = Common & {
  readonly kind: 'hand'
  readonly task: RunTask
  readonly run: PlannedRun
  readonly design: Design
  /** The clay step in question, for what is felt; null once fired. */
  readonly clayStepId: string | null
  /** Ware that can be felt: cut, and not dry yet. */
  readonly isClay: boolean
  readonly standing: { readonly cover: CoverKind; readonly spotId: string } | null
}
export type KilnRow = Common & { readonly kind: 'kiln'; readonly task: KilnTask; readonly firing: PlannedFiring }
export type BenchRow = HandRow | KilnRow

export type BenchDay = { readonly key: string; readonly name: string; readonly rows: readonly BenchRow[] }

export type BenchView = {
  readonly plan: Plan
  readonly state: LogState
  readonly studio: Studio
  readonly taps: readonly TapState[]
  readonly context: Context
}

const daysShown = 4

/** Days that have something to do, today first; what is late stands in today. In a day, in the order of the plan. */
export function benchDays(view: BenchView): BenchDay[] {
  const { context } = view
  const rows = [...handRows(view), ...kilnRows(view)].toSorted((a, b) => a.startMin - b.startMin)
  const keyOf = ({ startMin }: BenchRow) => dayKey(Math.max(startMin, context.nowMin), context)
  return [...new Set(rows.map(keyOf))]
    .map((key) => ({ key, rows: rows.filter((row) => keyOf(row) === key) }))
    .map(({ key, rows }) => ({ key, rows, name: dayText(Math.max(rows[0]!.startMin, context.nowMin), context) }))
    .slice(0, daysShown)
}

function handRows(view: BenchView): HandRow[] {
  const { plan, state, studio } = view
  const runs = new Map(plan.runs.map((run) => [run.id, run]))
  const stands = new Map(state.runs.map((run) => [run.id, run]))
  const designs = new Map(studio.designs.map((design) => [design.id, design]))
  return plan.tasks.flatMap((task) => {
    const run = runs.get(task.runId)
    const design = run && designs.get(run.designId)
    return run && design ? [handRow(view, task, run, design, stands.get(run.id))] : []
  })
}

function handRow(
  view: BenchView,
  task: RunTask,
  run: PlannedRun,
  design: Design,
  state: RunState | undefined,
): HandRow {
  const { studio, context } = view
  const step = design.steps.find(({ id }) => id === task.stepId)
  const glaze = studio.glazes.find(({ id }) => id === task.glazeId)?.name
  const standing = state?.waits.at(-1) ?? null
  const isClay = state?.stage === 'clay' || state?.stage === 'drying'
  const pieces = countText(task.count, design.name)
  return {
    kind: 'hand',
    key: task.id,
    startMin: task.startMin,
    title: task.kind === 'look-in' ? 'Look in' : (step?.name ?? task.stepId),
    what: glaze ? `${pieces}, ${glaze}` : pieces,
    where: isClay && standing ? `${spotName(studio, standing.spotId)}, ${coverTexts[standing.cover]}` : '',
    window: task.window ? windowWords(task.window, design, context) : '',
    when: whenText(task, task.window?.closeMin ?? null, context),
    maker: makerName(studio, task.makerId),
    after: afterText(task),
    tap: tapOn(view, task.id),
    task,
    run,
    design,
    clayStepId: nextClayStep(design, task, state),
    isClay,
    standing,
  }
}

function kilnRows(view: BenchView): KilnRow[] {
  const { plan, studio, context } = view
  return plan.kilnTasks.flatMap((task) => {
    const firing = plan.firings.find(({ id }) => id === task.firingId)
    if (!firing) return []
    const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)?.name ?? firing.kilnId
    const count = firing.members.reduce((sum, member) => sum + member.count, 0)
    return [
      {
        kind: 'kiln' as const,
        key: task.id,
        startMin: task.startMin,
        title: kilnDeeds[task.kind],
        what: `${kiln}, ${firing.kind}, ${count} pieces`,
        where: '',
        window: '',
        when: whenText(task, null, context),
        maker: makerName(studio, task.makerId),
        after: task.kind === 'load' ? loadWords(firing, studio) : '',
        tap: tapOn(view, task.id),
        task,
        firing,
      },
    ]
  })
}

/** Counts only until the plan has taken it in: the new plan says itself what is left. */
function tapOn({ taps, plan }: BenchView, taskId: string): TapState | null {
  const tap = taps.findLast((other) => other.taskId === taskId && !other.takenBack && other.status !== 'refused')
  if (!tap || (tap.position !== null && tap.position <= plan.input.logPosition)) return null
  return tap
}

function whenText(task: RunTask | KilnTask, closeMin: Minute | null, context: Context): string {
  const minutes = task.endMin - task.startMin
  const start =
    task.startMin < context.nowMin - 1
      ? `was due ${clockText(task.startMin, context)}`
      : clockText(task.startMin, context)
  const startByMin = closeMin === null ? null : closeMin - minutes
  const startBy =
    startByMin === null
      ? ''
      : `; start by ${dayPrefix(startByMin, task.startMin, context)}${clockText(startByMin, context)}`
  return `${start}, ${durationText(minutes)}${startBy}`
}

const dayPrefix = (minute: Minute, beside: Minute, context: Context): string =>
  dayKey(minute, context) === dayKey(beside, context) ? '' : `${dayText(minute, context)} `

function nextClayStep(design: Design, task: RunTask, state: RunState | undefined): string | null {
  if (task.kind === 'step') return task.stepId
  const done = new Set(state?.doneStepIds)
  return (
    design.steps.find(({ id, kind }) => !done.has(id) && !['cut', 'glaze', 'finish', 'pack'].includes(kind))?.id ?? null
  )
}

function loadWords(firing: PlannedFiring, { designs, glazes }: Studio): string {
  const names = firing.members.map(({ designId, glazeId, count }) => {
    const name = countText(count, designs.find(({ id }) => id === designId)?.name ?? designId)
    const glaze = glazes.find(({ id }) => id === glazeId)?.name
    return glaze ? `${name} (${glaze})` : name
  })
  return `${names.join(', ')}. The shelves are drawn in Loads.`
}

const spotName = ({ spots }: Studio, spotId: string): string => spots.find(({ id }) => id === spotId)?.name ?? spotId
const makerName = ({ makers }: Studio, makerId: string): string =>
  makers.find(({ id }) => id === makerId)?.name ?? makerId
