import { intersectionOf, withoutIntervals, type Interval } from '../../time.ts'
import { familiesOf, type Families } from './families.ts'
import {
  origin,
  type Choice,
  type MonotoneArc,
  type Point,
  type Problem,
  type Reason,
  type Kiln,
  type StepFunction,
} from './problem.ts'

/**
 * The problem by numbers: tasks, modes, groups, resources and assumptions by index, minutes from the start of the
 * horizon, lags between starts. The origin of the clock is the task after the last.
 */
export type Indexed = {
  readonly problem: Problem
  readonly taskCount: number
  readonly horizonMin: number
  readonly taskOf: ReadonlyMap<string, number>
  readonly assumptionOf: ReadonlyMap<string, number>
  readonly groups: readonly string[]
  /** By task: index of its group, or -1 if it is always done. */
  readonly groupOf: readonly number[]
  /** By group: its tasks. */
  readonly members: readonly (readonly number[])[]
  /** By task, by mode. */
  readonly modes: readonly (readonly IndexedMode[])[]
  readonly links: readonly Link[]
  readonly curves: readonly Curve[]
  readonly resources: readonly IndexedResource[]
  readonly kilns: readonly IndexedKiln[]
}

export type IndexedMode = {
  readonly durationMin: number
  /** By resource; undefined for a task that needs none. */
  readonly demands: readonly { readonly resource: number; readonly amount: number }[]
  /** When it may start, from its own calendar and the hours of its resources; undefined for any time. */
  readonly starts: readonly Interval[] | undefined
}

export type ModeChoice = { readonly task: number; readonly mode: number }

/** start of `to` >= start of `from` + `weight`, when the conditions hold and both are done. */
export type Link = {
  readonly from: number
  readonly weight: number
  readonly to: number
  readonly conditions: readonly ModeChoice[]
  readonly reason: Reason
  readonly assumption: number
}

/** A monotone arc between starts. */
export type Curve = {
  readonly from: number
  readonly to: number
  readonly bound: MonotoneArc['bound']
  readonly steps: StepFunction
  readonly conditions: readonly ModeChoice[]
  readonly reason: Reason
  readonly assumption: number
}

export type IndexedResource = {
  readonly capacity: number
  /** Spans in which something is missing from `capacity`; hours in which nothing is there are left to `starts`. */
  readonly missing: readonly (Interval & { readonly amount: number })[]
  readonly reason: Reason
  readonly assumption: number
}

export type IndexedKiln = {
  readonly slots: readonly number[]
  readonly room: readonly number[]
  /** Undefined for any time. */
  readonly hours: readonly Interval[] | undefined
  readonly families: Families
  readonly members: readonly {
    readonly task: number
    readonly size: readonly number[]
    readonly families: readonly string[]
  }[]
}

/** @throws RangeError if an id is named twice or not at all, or a number is out of range */
export function indexProblem(problem: Problem): Indexed {
  const taskOf = indexOfIds(problem.tasks, 'task')
  const resourceOf = indexOfIds(problem.resources, 'resource')
  const assumptionOf = indexOfIds(problem.assumptions ?? [], 'assumption')
  const groups = [...new Set(problem.tasks.flatMap(({ group }) => (group === undefined ? [] : [group])))]
  const membersOf = new Map(groups.map((group) => [group, [] as number[]]))
  problem.tasks.forEach(({ group }, task) => group !== undefined && membersOf.get(group)!.push(task))
  const groupIndex = new Map(groups.map((group, index) => [group, index]))
  const base = problem.horizon.startMin
  const horizonMin = problem.horizon.endMin - base
  const resources = problem.resources.map((resource) => indexResource(resource, base, horizonMin, assumptionOf))
  const closed = resources.map(closedHours)
  const modes = problem.tasks.map((task) => {
    if (task.modes.length === 0) throw new RangeError(`task ${task.id} has no mode`)
    return task.modes.map((mode): IndexedMode => {
      const demands = mode.demands
        .map(({ resourceId, amount }) => ({ resource: indexOf(resourceOf, resourceId), amount }))
        .filter(({ amount }) => amount > 0)
      const shut = demands.flatMap(({ resource }) => closed[resource]!)
      return {
        durationMin: mode.durationMin,
        demands,
        starts: allowedStarts(
          mode.durationMin,
          mode.starts?.map((span) => moved(span, -base)),
          shut,
          horizonMin,
        ),
      }
    })
  })
  const context: Context = { taskOf, assumptionOf, problem, modes, originMin: -base }
  return {
    problem,
    taskCount: problem.tasks.length,
    horizonMin,
    taskOf,
    assumptionOf,
    groups,
    members: groups.map((group) => membersOf.get(group)!),
    groupOf: problem.tasks.map(({ group }) => (group === undefined ? -1 : groupIndex.get(group)!)),
    modes,
    links: problem.lags.flatMap((lag) => linksOfLag(lag, context)),
    curves: (problem.monotoneArcs ?? []).flatMap((arc) => curvesOf(arc, context)),
    resources,
    kilns: (problem.kilns ?? []).map((kiln) => ({
      slots: kiln.slotIds.map((id) => indexOf(taskOf, id)),
      room: kiln.room,
      hours: kiln.hours?.map((span) => moved(span, -base)),
      families: familiesOf(familyIdsOf(problem, kiln), kiln.setups ?? []),
      members: kiln.members.map(({ taskId, size, familyIds }) => ({
        task: indexOf(taskOf, taskId),
        size,
        families: familyIds,
      })),
    })),
  }
}

const familyIdsOf = ({ tasks }: Problem, { slotIds, initialFamilyId }: Kiln): string[] => {
  const slots = new Set(slotIds)
  const ids = tasks.flatMap(({ id, modes }) => (slots.has(id) ? modes.map((mode) => mode.id) : []))
  return initialFamilyId === undefined ? ids : [...ids, initialFamilyId]
}

type Context = {
  readonly problem: Problem
  readonly taskOf: ReadonlyMap<string, number>
  readonly assumptionOf: ReadonlyMap<string, number>
  readonly modes: readonly (readonly IndexedMode[])[]
  readonly originMin: number
}

function indexOfIds(things: readonly { readonly id: string }[], what: string): Map<string, number> {
  const index = new Map(things.map(({ id }, at) => [id, at]))
  if (index.size < things.length) throw new RangeError(`two of one ${what} id`)
  return index
}

export function indexOf(index: ReadonlyMap<string, number>, id: string): number {
  const found = index.get(id)
  if (found === undefined) throw new RangeError(`nothing is called ${id}`)
  return found
}

const assumptionIndex = (assumptionOf: ReadonlyMap<string, number>, id: string | undefined): number =>
  id === undefined ? -1 : indexOf(assumptionOf, id)

function indexResource(
  { capacity, profile, reason, assumptionId }: Problem['resources'][number],
  base: number,
  horizonMin: number,
  assumptionOf: ReadonlyMap<string, number>,
): IndexedResource {
  const pieces = (profile ?? []).map((piece) => ({ ...moved(piece, -base), capacity: piece.capacity }))
  const most = Math.max(capacity, ...pieces.map((piece) => piece.capacity))
  const elsewhere = withoutIntervals([{ startMin: 0, endMin: horizonMin }], pieces)
  const missing = [...pieces, ...elsewhere.map((span) => ({ ...span, capacity }))]
    .filter((piece) => piece.capacity < most && piece.endMin > 0 && piece.startMin < horizonMin)
    .map(({ startMin, endMin, capacity: left }) => ({ startMin, endMin, amount: most - left }))
    .toSorted((a, b) => a.startMin - b.startMin)
  return { capacity: most, missing, reason, assumption: assumptionIndex(assumptionOf, assumptionId) }
}

/** A resource that may be relaxed keeps its closed hours out of the calendars, which nothing relaxes. */
function closedHours({ capacity, missing, assumption }: IndexedResource): Interval[] {
  return assumption >= 0 ? [] : missing.filter(({ amount }) => amount >= capacity)
}

function allowedStarts(
  durationMin: number,
  own: readonly Interval[] | undefined,
  shut: readonly Interval[],
  horizonMin: number,
): readonly Interval[] | undefined {
  if (own === undefined && (shut.length === 0 || durationMin === 0)) return undefined
  const all = [{ startMin: 0, endMin: horizonMin + 1 }]
  // Work of d minutes touches a closed span [a, b) if it starts in [a - d + 1, b).
  const touching =
    durationMin === 0 ? [] : shut.map((span) => ({ startMin: span.startMin - durationMin + 1, endMin: span.endMin }))
  return withoutIntervals(own ? intersectionOf(own, all) : all, touching)
}

const moved = ({ startMin, endMin }: Interval, byMin: number): Interval => ({
  startMin: startMin + byMin,
  endMin: endMin + byMin,
})

/** Where the durations of modes differ, an end is its start plus the duration of the mode taken. */
function offsetsOf(
  point: Point | typeof origin,
  context: Context,
): { task: number; offset: number; conditions: ModeChoice[] }[] {
  if (point === origin) return [{ task: context.modes.length, offset: 0, conditions: [] }]
  const task = indexOf(context.taskOf, point.taskId)
  if (point.at === 'start') return [{ task, offset: 0, conditions: [] }]
  const durations = context.modes[task]!.map(({ durationMin }) => durationMin)
  if (durations.every((duration) => duration === durations[0])) return [{ task, offset: durations[0]!, conditions: [] }]
  return durations.map((offset, mode) => ({ task, offset, conditions: [{ task, mode }] }))
}

function choicesOf(when: readonly Choice[] | undefined, { problem, taskOf }: Context): ModeChoice[] {
  return (when ?? []).map(({ taskId, modeId }) => {
    const task = indexOf(taskOf, taskId)
    const mode = problem.tasks[task]!.modes.findIndex(({ id }) => id === modeId)
    if (mode < 0) throw new RangeError(`task ${taskId} has no mode ${modeId}`)
    return { task, mode }
  })
}

function linksOfLag(lag: Problem['lags'][number], context: Context): Link[] {
  const { reason } = lag
  const assumption = assumptionIndex(context.assumptionOf, lag.assumptionId)
  const when = choicesOf(lag.when, context)
  return offsetsOf(lag.from, context).flatMap((from) =>
    offsetsOf(lag.to, context).flatMap((to) => {
      const conditions = [...when, ...from.conditions, ...to.conditions]
      const shift = from.offset - to.offset
      const links: Link[] = []
      if (lag.minimumMin !== undefined) {
        links.push({ from: from.task, weight: lag.minimumMin + shift, to: to.task, conditions, reason, assumption })
      }
      if (lag.maximumMin !== undefined) {
        links.push({ from: to.task, weight: -lag.maximumMin - shift, to: from.task, conditions, reason, assumption })
      }
      return links
    }),
  )
}

function curvesOf(arc: MonotoneArc, context: Context): Curve[] {
  const { bound, reason } = arc
  const assumption = assumptionIndex(context.assumptionOf, arc.assumptionId)
  const when = choicesOf(arc.when, context)
  return offsetsOf(arc.from, context).flatMap((from) =>
    offsetsOf(arc.to, context).map((to): Curve => {
      const steps = arc.steps.map(({ fromMin, valueMin, slope }) => ({
        fromMin: fromMin + context.originMin - from.offset,
        valueMin: valueMin + context.originMin - to.offset,
        slope,
      }))
      const conditions = [...when, ...from.conditions, ...to.conditions]
      return { from: from.task, to: to.task, bound, steps, conditions, reason, assumption }
    }),
  )
}
