/** Days as lanes of bars: the air, hands, waiting ware, racks and kilns, from plain data. */
import type { Plan, RunTask } from '#core/planning/plan.ts'
import type { Context } from '#words/context.ts'
import { kilnTaskText, runName } from '#words/tasks.ts'
import type { Studio } from '../data/queries.ts'
import { airLanes } from './airLanes.ts'
import type { Ground } from './ground.ts'
import type { Bar, Lane, Span } from './lane.ts'

export type WeekView = {
  readonly plan: Plan
  readonly studio: Studio
  /** undefined: not known yet. */
  readonly ground: Ground | undefined
  readonly context: Context
}

/** Lanes without anything in these days are left out, but for those of makers; so are groups without lanes. */
export function weekLanes(view: WeekView, span: Span): Lane[] {
  const { plan, studio } = view
  const shown = (lanes: readonly Lane[]) =>
    lanes.map((lane) => within(lane, span)).filter(({ bars, makerId }) => bars.length > 0 || makerId !== undefined)
  return [
    ...group('Air', shown(airLanes(view))),
    ...group('Hands', shown(makerLanes(view))),
    ...group('Waiting ware', shown(runLanes(plan, studio))),
    ...group('Racks', shown(rackLanes(plan, studio))),
    ...group('Kilns', shown(kilnLanes(plan, studio))),
  ]
}

const group = (name: string, lanes: readonly Lane[]): readonly Lane[] =>
  lanes.length === 0 ? [] : [{ key: name, name, isHeading: true, bars: [] }, ...lanes]

function within(lane: Lane, { fromMin, toMin }: Span): Lane {
  const bars = lane.bars
    .filter(({ startMin, endMin }) => endMin > fromMin && startMin < toMin)
    .map((bar) => ({ ...bar, startMin: Math.max(bar.startMin, fromMin), endMin: Math.min(bar.endMin, toMin) }))
  return { ...lane, bars }
}

function makerLanes({ plan, studio, ground }: WeekView): Lane[] {
  return studio.makers.map(({ id, name }) => {
    const hours = ground?.makers.find((maker) => maker.id === id)?.makingHours ?? []
    return {
      key: `maker ${id}`,
      name,
      makerId: id,
      bars: [
        ...hours.map((span, i): Bar => ({ ...span, key: `hours ${id} ${i}`, kind: 'hours', label: 'making hours' })),
        ...plan.tasks
          .filter(({ makerId }) => makerId === id)
          .map((task) => handBar(task, runName(task.runId, plan, studio))),
        ...plan.kilnTasks
          .filter(({ makerId }) => makerId === id)
          .map((task): Bar => {
            const { startMin, endMin } = task
            return {
              key: task.id,
              kind: 'kiln-work',
              startMin,
              endMin,
              label: kilnTaskText(task, plan.firings, studio),
            }
          }),
      ],
    }
  })
}

const handBar = ({ id, kind, pinned, startMin, endMin }: RunTask, label: string): Bar => ({
  key: id,
  kind: kind === 'look-in' ? 'look-in' : pinned ? 'pinned' : 'hands',
  startMin,
  endMin,
  label,
  ...(kind === 'step' ? { taskId: id } : {}),
})

function runLanes(plan: Plan, { designs }: Studio): Lane[] {
  const tasksOf = tasksByRun(plan.tasks)
  return plan.runs.map((run) => {
    const fromMin = run.boards[0]?.fromMin
    const toMin = run.boards.at(-1)?.toMin
    const waits: Bar[] =
      fromMin === undefined || toMin === undefined
        ? []
        : [{ key: run.id, kind: 'waiting', startMin: fromMin, endMin: toMin, label: `${run.count} waiting` }]
    const windows = (tasksOf.get(run.id) ?? []).flatMap(({ id, window }): Bar[] =>
      window
        ? [{ key: `window ${id}`, kind: 'window', startMin: window.openMin, endMin: window.closeMin, label: 'window' }]
        : [],
    )
    const name = designs.find(({ id }) => id === run.designId)?.name ?? run.designId
    return { key: `run ${run.id}`, name: `${run.count} ${name}`, bars: [...waits, ...windows] }
  })
}

function tasksByRun(tasks: readonly RunTask[]): ReadonlyMap<string, readonly RunTask[]> {
  const byRun = new Map<string, RunTask[]>()
  for (const task of tasks) {
    const known = byRun.get(task.runId)
    if (known) known.push(task)
    else byRun.set(task.runId, [task])
  }
  return byRun
}

/** A rack's bars say how many of its boards are taken, from one change to the next. */
const rackLanes = (plan: Plan, { spots }: Studio): Lane[] =>
  spots.map(({ id, name, boardCount }) => {
    const taken = plan.runs.flatMap(({ boards }) => boards.filter(({ spotId }) => spotId === id))
    const changes = [...new Set(taken.flatMap(({ fromMin, toMin }) => [fromMin, toMin]))].toSorted((a, b) => a - b)
    const bars = changes.slice(0, -1).flatMap((startMin, i): Bar[] => {
      const count = taken
        .filter(({ fromMin, toMin }) => fromMin <= startMin && toMin > startMin)
        .reduce((sum, board) => sum + board.boardCount, 0)
      const label = `${count} of ${boardCount}`
      return count > 0 ? [{ key: `${id} ${startMin}`, kind: 'racks', startMin, endMin: changes[i + 1]!, label }] : []
    })
    return { key: `spot ${id}`, name, bars }
  })

const kilnLanes = (plan: Plan, { kilns }: Studio): Lane[] =>
  kilns.map(({ id, name }) => ({
    key: `kiln ${id}`,
    name,
    bars: plan.firings
      .filter(({ kilnId }) => kilnId === id)
      .flatMap((firing): Bar[] => [
        {
          key: firing.id,
          kind: 'firing',
          startMin: firing.loadMin,
          endMin: firing.shutOffMin,
          label: firing.kind,
        },
        {
          key: `${firing.id} cools`,
          kind: 'cooling',
          startMin: firing.shutOffMin,
          endMin: firing.emptyMin,
          label: 'cools',
        },
      ]),
  }))
