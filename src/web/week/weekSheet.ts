/** Some days on paper: what hands do when, and what is covered or opened. */
import type { KilnTask, Plan, RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Context } from '#words/context.ts'
import { afterText, kilnTaskText, runName, taskText, windowText } from '#words/tasks.ts'
import { clockText, dateText, durationText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'

export type SheetRow = {
  readonly key: string
  readonly when: string
  readonly who: string
  readonly what: string
  /** The window of the clay, and what is covered or opened afterwards: a line for each run. */
  readonly notes: readonly string[]
}
export type SheetDay = { readonly startMin: Minute; readonly name: string; readonly rows: readonly SheetRow[] }

type View = { readonly plan: Plan; readonly studio: Studio; readonly context: Context }
type Item = {
  readonly task: RunTask | KilnTask
  readonly what: string
  readonly notes: string
  /** For a look-in, what is looked at: several that follow one another are one row. */
  readonly lookedAt?: string
}

/** Look-ins no further apart than this are one round. */
const ROUND_MIN = 10

/** @param days first minutes of the days, and of the day after the last. Days without hands are there, empty. */
export function weekSheet(view: View, days: readonly Minute[]): SheetDay[] {
  const items = itemsOf(view)
  return days.slice(0, -1).map((startMin, i) => ({
    startMin,
    name: dateText(startMin, view.context),
    rows: rounds(items.filter(({ task }) => task.startMin >= startMin && task.startMin < days[i + 1]!)).map((round) =>
      rowOf(round, view),
    ),
  }))
}

function itemsOf({ plan, studio, context }: View): Item[] {
  const hands = plan.tasks.map((task): Item => {
    const window = task.window ? `Window ${windowText(task.window, context)}.` : ''
    const notes = [window, afterText(task)].filter(Boolean).join(' ')
    const lookedAt = task.kind === 'look-in' ? { lookedAt: runName(task.runId, plan, studio) } : {}
    return { task, what: taskText(task, plan, studio), notes, ...lookedAt }
  })
  const atKilns = plan.kilnTasks.map((task): Item => ({
    task,
    what: kilnTaskText(task, plan.firings, studio),
    notes: '',
  }))
  return [...hands, ...atKilns].toSorted((a, b) => a.task.startMin - b.task.startMin)
}

/** Look-ins of one maker that follow one another go together; all else stands by itself. */
function rounds(items: readonly Item[]): Item[][] {
  const made: Item[][] = []
  for (const item of items) {
    const last = made.at(-1)?.at(-1)
    const follows =
      last?.lookedAt !== undefined &&
      item.lookedAt !== undefined &&
      last.task.makerId === item.task.makerId &&
      item.task.startMin - last.task.endMin <= ROUND_MIN
    if (follows) made.at(-1)!.push(item)
    else made.push([item])
  }
  return made
}

function rowOf(round: readonly Item[], { studio, context }: View): SheetRow {
  const [first, last] = [round[0]!, round.at(-1)!]
  const { id, startMin, makerId } = first.task
  const isRound = round.length > 1
  return {
    key: id,
    when: `${clockText(startMin, context)}, ${durationText(last.task.endMin - startMin)}`,
    who: studio.makers.find((maker) => maker.id === makerId)?.name ?? makerId,
    what: isRound ? `Look in at ${round.length} runs` : first.what,
    notes: isRound
      ? round.map(({ lookedAt, notes }) => `${lookedAt}: ${notes || 'feel it.'}`)
      : first.notes
        ? [first.notes]
        : [],
  }
}
