/** Some days on paper: what hands do when, and what is covered or opened. */
import type { KilnTask, Plan, RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Context } from '#words/context.ts'
import { afterText, kilnTaskText, taskText, windowText } from '#words/tasks.ts'
import { clockText, dateText, durationText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'

export type SheetRow = {
  readonly key: string
  readonly when: string
  readonly who: string
  readonly what: string
  /** The window of the clay, and what is covered or opened afterwards; empty where there is neither. */
  readonly notes: string
}
export type SheetDay = { readonly startMin: Minute; readonly name: string; readonly rows: readonly SheetRow[] }

type View = { readonly plan: Plan; readonly studio: Studio; readonly context: Context }

/** @param days first minutes of the days, and of the day after the last. Days without hands are there, empty. */
export function weekSheet({ plan, studio, context }: View, days: readonly Minute[]): SheetDay[] {
  const whenText = ({ startMin, endMin }: RunTask | KilnTask) =>
    `${clockText(startMin, context)}, ${durationText(endMin - startMin)}`
  const who = ({ makerId }: RunTask | KilnTask) => studio.makers.find(({ id }) => id === makerId)?.name ?? makerId
  const hands = plan.tasks.map((task) => ({
    task,
    what: taskText(task, plan, studio),
    notes: [task.window ? `Window ${windowText(task.window, context)}.` : '', afterText(task)]
      .filter(Boolean)
      .join(' '),
  }))
  const atKilns = plan.kilnTasks.map((task) => ({ task, what: kilnTaskText(task, plan.firings, studio), notes: '' }))
  const all = [...hands, ...atKilns].toSorted((a, b) => a.task.startMin - b.task.startMin)
  return days.slice(0, -1).map((startMin, i) => ({
    startMin,
    name: dateText(startMin, context),
    rows: all
      .filter(({ task }) => task.startMin >= startMin && task.startMin < days[i + 1]!)
      .map(({ task, what, notes }) => ({ key: task.id, when: whenText(task), who: who(task), what, notes })),
  }))
}
