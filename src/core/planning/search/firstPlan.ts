import type { Rng } from '../../rng.ts'
import { evaluate } from './evaluate.ts'
import { createSearch } from './exact.ts'
import type { Indexed } from './indexed.ts'
import { LEFT_OUT, type Schedule } from './schedule.ts'
import type { Freedom } from './scope.ts'

const TASKS_AT_ONCE = 24
const CONFLICTS_AT_ONCE = 200
/** What stands in the way is taken up again with the unit, so many tasks at first and at most. */
const TAKEN_UP = { first: 20, most: 160 }

/**
 * A plan by insertion, for problems too large to begin as a whole: units (tasks that maximum lags, windows or a group
 * tie together) by precedence and latest start, a handful at once, each as early as what is there already allows.
 * A unit that finds no place has its neighbours in time taken up and is inserted with them.
 * @returns the plan, or undefined if some unit found none, and the conflicts it took
 */
export function firstPlan(
  indexed: Indexed,
  rng: Rng,
  cancelled: () => boolean,
): { readonly schedule: Schedule | undefined; readonly conflicts: number } {
  const bare = { ...indexed, problem: { ...indexed.problem, costs: [] } }
  const freedom: Freedom[] = Array.from({ length: indexed.taskCount }, () => 'ignored')
  let conflicts = 0
  let schedule: Schedule = {
    start: new Int32Array(indexed.taskCount),
    mode: new Int32Array(indexed.taskCount).fill(LEFT_OUT),
    slot: new Int32Array(indexed.taskCount).fill(-1),
    costs: [],
  }

  const insert = (tasks: readonly number[]): boolean => {
    const opened = freedom.slice()
    for (const task of tasks) opened[task] = 'free'
    const search = createSearch(bare, { incumbent: { schedule, freedom: opened } }, rng)
    const outcome = search.run({ conflicts: CONFLICTS_AT_ONCE, cancelled }, undefined)
    conflicts += search.solver.conflicts()
    if (outcome !== 'found') return false
    schedule = search.schedule()
    for (const task of tasks) freedom[task] = 'fixed'
    return true
  }

  const insertUnits = (units: readonly (readonly number[])[]): boolean => {
    if (cancelled()) return false
    if (insert(units.flat())) return true
    if (units.length > 1) {
      const half = units.length >> 1
      return insertUnits(units.slice(0, half)) && insertUnits(units.slice(half))
    }
    for (let count = TAKEN_UP.first; count <= TAKEN_UP.most; count *= 2) {
      if (cancelled()) return false
      if (insert([...units[0]!, ...latestPlaced(schedule, freedom, count)])) return true
    }
    return false
  }

  for (const units of handfuls(unitsInOrder(indexed))) {
    if (!insertUnits(units)) return { schedule: undefined, conflicts }
  }
  return { schedule: { ...schedule, costs: evaluate(indexed, schedule) }, conflicts }
}

function latestPlaced({ start, mode }: Schedule, freedom: readonly Freedom[], count: number): number[] {
  return Array.from(start.keys())
    .filter((task) => freedom[task] === 'fixed' && mode[task] !== LEFT_OUT)
    .toSorted((a, b) => start[b]! - start[a]!)
    .slice(0, count)
}

function handfuls(units: readonly (readonly number[])[]): (readonly number[])[][] {
  const all: (readonly number[])[][] = []
  let tasks = Infinity
  for (const unit of units) {
    if (tasks + unit.length > TASKS_AT_ONCE) {
      all.push([])
      tasks = 0
    }
    all.at(-1)!.push(unit)
    tasks += unit.length
  }
  return all
}

/** Units whose predecessors are all there, the one with the earliest latest start first. */
function unitsInOrder(indexed: Indexed): number[][] {
  const unitOf = tiedTogether(indexed)
  const members = new Map<number, number[]>()
  unitOf.forEach((unit, task) => members.set(unit, [...(members.get(unit) ?? []), task]))
  const latest = latestStarts(indexed)
  const urgency = new Map([...members].map(([unit, tasks]) => [unit, Math.min(...tasks.map((task) => latest[task]!))]))
  const followers = new Map<number, Set<number>>()
  const waitingFor = new Map<number, number>()
  for (const { from, weight, to } of indexed.links) {
    const before = unitOf[from]
    const after = unitOf[to]
    if (before === undefined || after === undefined || before === after || weight < 0) continue
    if (followers.get(before)?.has(after)) continue
    followers.set(before, (followers.get(before) ?? new Set()).add(after))
    waitingFor.set(after, (waitingFor.get(after) ?? 0) + 1)
  }
  const ordered: number[][] = []
  const left = new Set(members.keys())
  while (left.size > 0) {
    // Were units to wait for each other, the most urgent would go first.
    const rank = (unit: number) => ((waitingFor.get(unit) ?? 0) > 0 ? 1e12 : 0) + urgency.get(unit)!
    let next = -1
    for (const unit of left) if (next < 0 || rank(unit) < rank(next)) next = unit
    left.delete(next)
    ordered.push(members.get(next)!)
    for (const after of followers.get(next) ?? []) waitingFor.set(after, waitingFor.get(after)! - 1)
  }
  return ordered
}

/** By task, a number that tasks tied by maximum lags, upper windows or a group share. */
function tiedTogether({ taskCount, links, curves, groupOf }: Indexed): number[] {
  const parent = Array.from({ length: taskCount }, (_, task) => task)
  const rootOf = (task: number): number => {
    let root = task
    while (parent[root] !== root) root = parent[root] = parent[parent[root]!]!
    return root
  }
  const tie = (a: number, b: number): void => {
    if (a < taskCount && b < taskCount) parent[rootOf(a)] = rootOf(b)
  }
  for (const { from, weight, to } of links) if (weight < 0) tie(from, to)
  for (const { from, to, bound } of curves) if (bound === 'at-most') tie(from, to)
  const firstOf = new Map<number, number>()
  groupOf.forEach((group, task) => {
    if (group < 0) return
    if (firstOf.has(group)) tie(task, firstOf.get(group)!)
    else firstOf.set(group, task)
  })
  return parent.map((_, task) => rootOf(task))
}

/** When each task must start at the latest for the dues of those behind it (all lags taken as if they held). */
function latestStarts({ taskCount, horizonMin, modes, links, problem, taskOf }: Indexed): Float64Array {
  const shortest = modes.map((ofTask) => Math.min(...ofTask.map(({ durationMin }) => durationMin)))
  const latest = Float64Array.from({ length: taskCount }, (_, task) => horizonMin - shortest[task]!)
  for (const term of problem.costs.flatMap(({ terms }) => terms)) {
    if (term.kind !== 'tardiness' && term.kind !== 'late') continue
    const task = taskOf.get(term.taskId)!
    latest[task] = Math.min(latest[task]!, term.dueMin - problem.horizon.startMin - shortest[task]!)
  }
  for (let round = 0, changed = true; changed && round < taskCount; round++) {
    changed = false
    for (const { from, weight, to } of links) {
      if (from >= taskCount || to >= taskCount || weight < 0 || latest[to]! - weight >= latest[from]!) continue
      latest[from] = latest[to]! - weight
      changed = true
    }
  }
  return latest
}
