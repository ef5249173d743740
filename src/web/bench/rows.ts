/** What needs hands, as rows to draw: made from the plan and the log. What was just tapped is asked for by each row. */
import type { CoverKind } from '#core/drying/types.ts'
import type { LogState, RunState } from '#core/logbook/state.ts'
import type { KilnTask, Plan, PlannedFiring, PlannedRun, RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { countText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { afterText, kilnDeeds } from '#words/tasks.ts'
import { clockText, dayKey, dayText, durationText } from '#words/times.ts'
import { coverTexts } from '#words/trade.ts'
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

export type BenchDay = {
  readonly key: string
  readonly name: string
  readonly taskCount: number
  /** In the order of the plan; made when first asked for, since most days stay folded. */
  readonly rows: () => readonly BenchRow[]
}

export type BenchView = {
  readonly plan: Plan
  readonly state: LogState
  readonly studio: Studio
  readonly context: Context
}

const daysShown = 4

/** Days that have something to do, today first; what is late stands in today. */
export function benchDays(view: BenchView): BenchDay[] {
  const { plan, studio, context } = view
  const names: Names = {
    runs: byId(plan.runs),
    firings: byId(plan.firings),
    stands: byId(view.state.runs),
    designs: byId(studio.designs),
  }
  return tasksByDay(plan, context).map(({ key, atMin, tasks }) => ({
    key,
    name: dayText(atMin, context),
    taskCount: tasks.length,
    rows: once(() => tasks.flatMap((task) => rowOf(task, names, view) ?? [])),
  }))
}

type DayTasks = { readonly key: string; readonly atMin: Minute; readonly tasks: (RunTask | KilnTask)[] }

/** No further than is shown: a plan goes on for weeks. */
function tasksByDay({ tasks, kilnTasks }: Plan, context: Context): readonly DayTasks[] {
  const days: DayTasks[] = []
  for (const task of [...tasks, ...kilnTasks].toSorted((a, b) => a.startMin - b.startMin)) {
    const atMin = Math.max(task.startMin, context.nowMin)
    const key = dayKey(atMin, context)
    const last = days.at(-1)
    if (last?.key === key) last.tasks.push(task)
    else if (days.length === daysShown) break
    else days.push({ key, atMin, tasks: [task] })
  }
  return days
}

type Names = {
  readonly runs: ReadonlyMap<string, PlannedRun>
  readonly firings: ReadonlyMap<string, PlannedFiring>
  readonly stands: ReadonlyMap<string, RunState>
  readonly designs: ReadonlyMap<string, Design>
}

const byId = <Item extends { readonly id: string }>(items: readonly Item[]): ReadonlyMap<string, Item> =>
  new Map(items.map((item) => [item.id, item]))

function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | undefined
  return () => (made ??= { value: make() }).value
}

/** @returns null for a task of which the plan or the studio has lost what it is done to */
function rowOf(task: RunTask | KilnTask, { runs, firings, stands, designs }: Names, view: BenchView): BenchRow | null {
  if ('firingId' in task) {
    const firing = firings.get(task.firingId)
    return firing ? kilnRow(view, task, firing) : null
  }
  const run = runs.get(task.runId)
  const design = run && designs.get(run.designId)
  return run && design ? handRow(view, task, run, design, stands.get(run.id)) : null
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
    task,
    run,
    design,
    clayStepId: nextClayStep(design, task, state),
    isClay,
    standing,
  }
}

function kilnRow({ studio, context }: BenchView, task: KilnTask, firing: PlannedFiring): KilnRow {
  const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)?.name ?? firing.kilnId
  const count = firing.members.reduce((sum, member) => sum + member.count, 0)
  return {
    kind: 'kiln',
    key: task.id,
    startMin: task.startMin,
    title: kilnDeeds[task.kind],
    what: `${kiln}, ${firing.kind}, ${count} pieces`,
    where: '',
    window: '',
    when: whenText(task, null, context),
    maker: makerName(studio, task.makerId),
    after: task.kind === 'load' ? loadWords(firing, studio) : '',
    task,
    firing,
  }
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
