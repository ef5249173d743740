/** The week as lanes of bars: hands, waiting ware, racks and kilns, from plain data. */
import type { Plan, RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Studio } from '../data/queries.ts'

export type BarKind =
  | 'hands'
  | 'pinned'
  | 'look-in'
  | 'kiln-work'
  | 'window'
  | 'waiting'
  | 'racks'
  | 'firing'
  | 'cooling'
export type Bar = {
  readonly key: string
  readonly kind: BarKind
  readonly startMin: Minute
  readonly endMin: Minute
  readonly label: string
}
export type Lane = {
  readonly key: string
  readonly group: string
  readonly name: string
  readonly bars: readonly Bar[]
}
export type Week = { readonly fromMin: Minute; readonly toMin: Minute }

/** Lanes without anything in the week are left out, but for those of makers. */
export function weekLanes(plan: Plan, studio: Studio, week: Week): Lane[] {
  const waiting = [...runLanes(plan, studio), ...rackLanes(plan, studio), ...kilnLanes(plan, studio)]
  return [
    ...makerLanes(plan, studio).map((lane) => within(lane, week)),
    ...waiting.map((lane) => within(lane, week)).filter(({ bars }) => bars.length > 0),
  ]
}

function within(lane: Lane, { fromMin, toMin }: Week): Lane {
  const bars = lane.bars
    .filter(({ startMin, endMin }) => endMin > fromMin && startMin < toMin)
    .map((bar) => ({ ...bar, startMin: Math.max(bar.startMin, fromMin), endMin: Math.min(bar.endMin, toMin) }))
  return { ...lane, bars }
}

const makerLanes = (plan: Plan, { makers, designs }: Studio): Lane[] =>
  makers.map(({ id, name }) => ({
    key: `maker ${id}`,
    group: 'Hands',
    name,
    bars: [
      ...plan.tasks
        .filter(({ makerId }) => makerId === id)
        .map((task) => ({ ...task, key: task.id, kind: handKind(task), label: designName(task.runId, plan, designs) })),
      ...plan.kilnTasks
        .filter(({ makerId }) => makerId === id)
        .map((task) => ({ ...task, key: task.id, kind: 'kiln-work' as const, label: task.kind })),
    ],
  }))

const handKind = ({ kind, pinned }: RunTask): BarKind => (kind === 'look-in' ? 'look-in' : pinned ? 'pinned' : 'hands')

function designName(runId: string, plan: Plan, designs: Studio['designs']): string {
  const designId = plan.runs.find(({ id }) => id === runId)?.designId
  return designs.find(({ id }) => id === designId)?.name ?? runId
}

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
    return { key: `run ${run.id}`, group: 'Waiting ware', name: `${run.count} ${name}`, bars: [...waits, ...windows] }
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
    return { key: `spot ${id}`, group: 'Racks', name, bars }
  })

const kilnLanes = (plan: Plan, { kilns }: Studio): Lane[] =>
  kilns.map(({ id, name }) => ({
    key: `kiln ${id}`,
    group: 'Kilns',
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

export type Session = {
  readonly key: string
  readonly makerId: string
  readonly startMin: Minute
  readonly endMin: Minute
  readonly tasks: readonly RunTask[]
}

/** Between hands of one session no more than this passes. */
const PAUSE_MIN = 60

/** Steps and look-ins that one maker does in one go, in the order of their start. */
export function sessionsOf(tasks: readonly RunTask[], { fromMin, toMin }: Week): Session[] {
  const sessions: Session[] = []
  const coming = tasks.filter(({ startMin, endMin }) => endMin > fromMin && startMin < toMin)
  for (const task of coming.toSorted((a, b) => a.startMin - b.startMin)) {
    const { makerId, startMin, endMin } = task
    const at = sessions.findLastIndex((session) => session.makerId === makerId)
    const last = sessions[at]
    if (last && startMin - last.endMin <= PAUSE_MIN)
      sessions[at] = { ...last, endMin: Math.max(last.endMin, endMin), tasks: [...last.tasks, task] }
    else sessions.push({ key: task.id, makerId, startMin, endMin, tasks: [task] })
  }
  return sessions
}
