import type { Indexed, IndexedKiln, ModeChoice } from '../indexed.ts'
import { FAR } from '../lcg/engine.ts'
import { firstAtLeast, lastAtMost, valueAt } from '../lcg/stepFunction.ts'
import type { CostTerm, Point } from '../problem.ts'
import { LEFT_OUT, type Schedule } from '../schedule.ts'

/** By level: how much a unit of it counts. */
export type Weights = readonly number[]

/** A member that may change its firing. */
export type Loose = {
  readonly task: number
  /** By kiln of the floor; undefined where it may not go. */
  readonly inKiln: readonly (Fit | undefined)[]
  /** By its own modes: when it may start, as the rest of the schedule asks. */
  readonly leastMin: readonly number[]
  readonly mostMin: readonly number[]
  readonly modeCost: readonly number[]
  /** By its own modes: how long it lasts. */
  readonly durationMin: readonly number[]
  readonly penalties: readonly Penalty[]
  /** What it costs to leave it out; undefined if it may not be. */
  readonly leftOutCost: number | undefined
}

export type Fit = {
  readonly size: readonly number[]
  /** By mode of the kiln's slots: its own mode then, or -1 if that family does not suit it. */
  readonly ownMode: Int32Array
}

/** What a time of the member costs: `once` past `dueMin`, or by the minute `after` or `before` it. */
export type Penalty = {
  readonly kind: 'once' | 'after' | 'before'
  readonly at: Point['at']
  readonly dueMin: number
  readonly weight: number
}

/**
 * Members that can be fired in these kilns. What ties one to the rest bounds its time; of two that are tied to each
 * other one keeps its time.
 */
export function looseMembers(
  indexed: Indexed,
  kilns: readonly IndexedKiln[],
  schedule: Schedule,
  weights: Weights,
): Loose[] {
  const slots = new Set(kilns.flatMap((kiln) => kiln.slots))
  const tasks = [...new Set(kilns.flatMap(({ members }) => members.map(({ task }) => task)))].filter((task) => {
    const isOut = schedule.mode[task] === LEFT_OUT
    return isOut ? indexed.groupOf[task]! < 0 || mayBeLeftOut(indexed, task) : slots.has(schedule.slot[task]!)
  })
  const held = heldTasks(indexed, new Set(tasks), schedule)
  const penaltiesOf = penaltiesByTask(indexed, schedule, weights)
  return tasks.map((task): Loose => {
    const windows = held.has(task) ? heldWindows(indexed, schedule, task) : windowsOf(indexed, schedule, task)
    return {
      task,
      inKiln: kilns.map((kiln) => fitIn(indexed, kiln, task)),
      ...windows,
      durationMin: indexed.modes[task]!.map(({ durationMin }) => durationMin),
      modeCost: modeCosts(indexed, task, weights),
      penalties: penaltiesOf.get(task) ?? [],
      leftOutCost: mayBeLeftOut(indexed, task) && !held.has(task) ? leftOutCost(indexed, task, weights) : undefined,
    }
  })
}

const mayBeLeftOut = ({ groupOf, members }: Indexed, task: number): boolean =>
  groupOf[task]! >= 0 && members[groupOf[task]!]!.length === 1

function fitIn({ problem }: Indexed, { slots, members }: IndexedKiln, task: number): Fit | undefined {
  const member = members.find((one) => one.task === task)
  if (!member) return undefined
  const own = problem.tasks[task]!.modes
  const ownMode = problem.tasks[slots[0]!]!.modes.map(({ id }) => {
    if (!member.families.includes(id)) return -1
    return own.length === 1 ? 0 : own.findIndex((mode) => mode.id === id)
  })
  return { size: member.size, ownMode: Int32Array.from(ownMode) }
}

/** Members whose time others hang on, or that have hours or needs of their own. */
function heldTasks({ links, curves, problem, taskOf, modes }: Indexed, loose: ReadonlySet<number>, { mode }: Schedule) {
  const held = new Set<number>()
  const holdOne = (a: number, b: number): void => {
    if (loose.has(a) && loose.has(b) && a !== b && !held.has(a) && !held.has(b)) held.add(a)
  }
  for (const task of loose) {
    const isPlain = modes[task]!.every(({ demands, starts }) => demands.length === 0 && starts === undefined)
    if (!isPlain && mode[task] !== LEFT_OUT) held.add(task)
  }
  for (const { from, to, conditions } of [...links, ...curves]) {
    holdOne(from, to)
    for (const { task } of conditions) {
      // What happens to others because of its mode is not followed up.
      if (loose.has(task) && task !== from && task !== to) held.add(task)
    }
  }
  for (const term of problem.costs.flatMap(({ terms }) => terms)) {
    if (term.kind === 'span') holdOne(taskOf.get(term.from.taskId)!, taskOf.get(term.to.taskId)!)
  }
  return held
}

type Windows = Pick<Loose, 'leastMin' | 'mostMin'>

function heldWindows({ modes }: Indexed, { start, mode }: Schedule, task: number): Windows {
  return {
    leastMin: modes[task]!.map((_, own) => (own === mode[task] ? start[task]! : FAR)),
    mostMin: modes[task]!.map((_, own) => (own === mode[task] ? start[task]! : -FAR)),
  }
}

function windowsOf(indexed: Indexed, { start, mode }: Schedule, task: number): Windows {
  const { modes, links, curves, taskCount, horizonMin, problem } = indexed
  const leastMin = modes[task]!.map(() => 0)
  const mostMin = modes[task]!.map(({ durationMin }) => horizonMin - durationMin)
  const startOf = (node: number) => (node === taskCount ? -problem.horizon.startMin : start[node]!)
  const isDone = (node: number) => node === task || node === taskCount || mode[node] !== LEFT_OUT
  /** Narrows the window of every own mode in which the conditions hold. */
  const narrow = (conditions: readonly ModeChoice[], least: number, most: number): void => {
    modes[task]!.forEach((_, own) => {
      const holds = conditions.every((choice) =>
        choice.task === task ? choice.mode === own : mode[choice.task] === choice.mode,
      )
      if (!holds) return
      leastMin[own] = Math.max(leastMin[own]!, least)
      mostMin[own] = Math.min(mostMin[own]!, most)
    })
  }
  for (const { from, weight, to, conditions } of links) {
    if ((from !== task && to !== task) || !isDone(from) || !isDone(to)) continue
    if (from === to) narrow(conditions, weight > 0 ? FAR : 0, FAR)
    else if (to === task) narrow(conditions, startOf(from) + weight, FAR)
    else narrow(conditions, -FAR, startOf(to) - weight)
  }
  for (const { from, to, bound, steps, conditions } of curves) {
    if ((from !== task && to !== task) || !isDone(from) || !isDone(to)) continue
    if (from === to) narrow(conditions, FAR, -FAR)
    else if (to === task) {
      const value = valueAt(steps, startOf(from))
      if (bound === 'at-least') narrow(conditions, value, FAR)
      else narrow(conditions, -FAR, value)
    } else if (bound === 'at-least') narrow(conditions, -FAR, lastAtMost(steps, startOf(to)))
    else narrow(conditions, firstAtLeast(steps, startOf(to)), FAR)
  }
  return { leastMin, mostMin }
}

function modeCosts({ problem }: Indexed, task: number, weights: Weights): number[] {
  const { id, modes } = problem.tasks[task]!
  const costs = modes.map(() => 0)
  problem.costs.forEach(({ terms }, level) => {
    for (const term of terms) {
      if (term.kind !== 'mode' || term.taskId !== id) continue
      costs[modes.findIndex((mode) => mode.id === term.modeId)]! += term.cost * weights[level]!
    }
  })
  return costs
}

function leftOutCost({ problem }: Indexed, task: number, weights: Weights): number {
  const { group } = problem.tasks[task]!
  let cost = 0
  problem.costs.forEach(({ terms }, level) => {
    for (const term of terms) {
      if (term.kind === 'left-out' && term.group === group) cost += term.cost * weights[level]!
    }
  })
  return cost
}

function penaltiesByTask(indexed: Indexed, schedule: Schedule, weights: Weights): Map<number, Penalty[]> {
  const byTask = new Map<number, Penalty[]>()
  indexed.problem.costs.forEach(({ terms }, level) => {
    for (const term of terms) {
      for (const { task, ...penalty } of penaltiesOfTerm(indexed, schedule, term)) {
        const weighed = { ...penalty, weight: penalty.weight * weights[level]! }
        byTask.set(task, [...(byTask.get(task) ?? []), weighed])
      }
    }
  })
  return byTask
}

function penaltiesOfTerm(
  indexed: Indexed,
  schedule: Schedule,
  term: CostTerm,
): (Penalty & { readonly task: number })[] {
  const { taskOf, problem, modes } = indexed
  const baseMin = problem.horizon.startMin
  if (term.kind === 'late' || term.kind === 'tardiness') {
    const kind = term.kind === 'late' ? 'once' : 'after'
    const weight = term.kind === 'late' ? term.cost : term.weight
    return [{ task: taskOf.get(term.taskId)!, kind, at: 'end', dueMin: term.dueMin - baseMin, weight }]
  }
  if (term.kind === 'moved') {
    const own = {
      task: taskOf.get(term.taskId)!,
      at: 'start' as const,
      dueMin: term.startMin - baseMin,
      weight: term.weight,
    }
    return [
      { ...own, kind: 'after' },
      { ...own, kind: 'before' },
    ]
  }
  if (term.kind !== 'span') return []
  const timeOf = ({ taskId, at }: Point): number | undefined => {
    const task = taskOf.get(taskId)!
    const mode = modes[task]![schedule.mode[task]!]
    return mode && schedule.start[task]! + (at === 'end' ? mode.durationMin : 0)
  }
  const [fromMin, toMin] = [timeOf(term.from), timeOf(term.to)]
  const ends = []
  if (fromMin !== undefined) {
    const own = { task: taskOf.get(term.to.taskId)!, at: term.to.at, weight: term.weight }
    ends.push({ ...own, kind: 'after' as const, dueMin: fromMin + term.beyondMin })
  }
  if (toMin !== undefined) {
    const own = { task: taskOf.get(term.from.taskId)!, at: term.from.at, weight: term.weight }
    ends.push({ ...own, kind: 'before' as const, dueMin: toMin - term.beyondMin })
  }
  return ends
}
