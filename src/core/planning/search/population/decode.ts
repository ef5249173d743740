import { groupedBy } from '../lcg/groupedBy.ts'
import type { Project, ProjectLag } from './project.ts'

/** The order of a schedule's starts, which the schedule can be made of again. */
export type Individual = { readonly order: Int32Array; readonly start: Int32Array; readonly makespan: number }

/** Orders of tasks made into schedules. Starts are units from the beginning of the horizon. */
export type Decoder = {
  /**
   * Serial schedule generation: task by task, each as early as its lags and what is taken already allow.
   * @param order every task behind those that hold it back
   * @returns when the last task ends
   */
  readonly place: (order: Int32Array, start: Int32Array) => number
  /**
   * All tasks as late as they can go before the end (those that end last first), then all as early as they can go
   * (those that start first first). Never ends later, often sooner.
   * @see Valls, Ballestín, Quintanilla (2005), Justification and RCPSP, EJOR 165
   * @returns when the last task ends
   */
  readonly justify: (start: Int32Array, makespan: number) => number
  /** Tasks by start, those that are held back by others of the same start behind them. */
  readonly orderOf: (start: Int32Array, order: Int32Array) => void
}

/** @see Kolisch (1996), Serial and parallel resource-constrained project scheduling methods revisited, EJOR 90 */
export function createDecoder(project: Project): Decoder {
  const { taskCount, horizon, duration, release, lags, topological } = project
  const forwards = createGenerator(project, lags)
  const backwards = createGenerator(
    project,
    lags.map((lag) => reversed(project, lag)),
  )
  const atOnce = new Int32Array(taskCount)
  const afterEnd = new Int32Array(taskCount)
  const order = new Int32Array(taskCount)
  const fromTheEnd = topological.toReversed()
  const sort = createSort(horizon)

  const place: Decoder['place'] = (list, start) => {
    forwards(list, release, start)
    let last = 0
    for (let task = 0; task < taskCount; task++) last = Math.max(last, start[task]! + duration[task]!)
    return last
  }

  return {
    place,
    justify: (start, makespan) => {
      for (let task = 0; task < taskCount; task++) afterEnd[task] = makespan - start[task]! - duration[task]!
      sort(afterEnd, fromTheEnd, order)
      backwards(order, atOnce, afterEnd)
      for (let task = 0; task < taskCount; task++) start[task] = makespan - afterEnd[task]! - duration[task]!
      sort(start, topological, order)
      return place(order, start)
    },
    orderOf: (start, list) => sort(start, topological, list),
  }
}

/** The lag as seen from the end, where ends take the part of starts. */
function reversed({ duration }: Project, { from, weight, to }: ProjectLag): ProjectLag {
  return { from: to, weight: weight - duration[from]! + duration[to]!, to: from }
}

/** Counting sort: `order` gets the tasks by key, equal keys as in `ties`. Keys run from 0 up to `most`. */
function createSort(most: number): (key: Int32Array, ties: Int32Array, order: Int32Array) => void {
  const place = new Int32Array(most + 2)
  return (key, ties, order) => {
    let last = 0
    for (let i = 0; i < key.length; i++) {
      place[key[i]! + 1]!++
      if (key[i]! > last) last = key[i]!
    }
    for (let k = 0; k < last; k++) place[k + 1]! += place[k]!
    for (let i = 0; i < ties.length; i++) order[place[key[ties[i]!]!]!++] = ties[i]!
    place.fill(0, 0, last + 2)
  }
}

/** What is held of each resource in each unit, and tasks put into it one by one. */
function createGenerator(
  { taskCount, horizon, duration, capacity, demand }: Project,
  lags: readonly ProjectLag[],
): (order: Int32Array, release: Int32Array, start: Int32Array) => void {
  const resourceCount = capacity.length
  const { first: firstLag, order: lagOrder } = groupedBy(
    lags.map(({ to }) => to),
    taskCount,
  )
  const lagFrom = Int32Array.from(lagOrder, (i) => lags[i]!.from)
  const lagWeight = Int32Array.from(lagOrder, (i) => lags[i]!.weight)
  const uses = Array.from(demand.keys()).filter((at) => demand[at]! > 0)
  const { first: firstUse } = groupedBy(
    uses.map((at) => Math.floor(at / resourceCount)),
    taskCount,
  )
  const useRow = Int32Array.from(uses, (at) => (at % resourceCount) * horizon)
  const useAmount = Int32Array.from(uses, (at) => demand[at]!)
  /** [resource][unit], row-major. */
  const free = new Int32Array(resourceCount * horizon)
  let lastEnd = horizon

  const clear = (): void => {
    for (let r = 0; r < resourceCount; r++) free.fill(capacity[r]!, r * horizon, r * horizon + lastEnd)
    lastEnd = 0
  }

  const earliestRoom = (task: number, from: number): number => {
    const length = duration[task]!
    const end = firstUse[task + 1]!
    let room = 0
    let unit = from
    for (; room < length; unit++) {
      room++
      for (let use = firstUse[task]!; use < end; use++) {
        if (free[useRow[use]! + unit]! < useAmount[use]!) {
          room = 0
          break
        }
      }
    }
    return unit - length
  }

  return (order, release, start) => {
    clear()
    for (let i = 0; i < taskCount; i++) {
      const task = order[i]!
      let from = release[task]!
      for (let lag = firstLag[task]!; lag < firstLag[task + 1]!; lag++) {
        from = Math.max(from, start[lagFrom[lag]!]! + lagWeight[lag]!)
      }
      const at = earliestRoom(task, from)
      const end = at + duration[task]!
      start[task] = at
      if (end > lastEnd) lastEnd = end
      for (let use = firstUse[task]!; use < firstUse[task + 1]!; use++) {
        for (let unit = useRow[use]! + at; unit < useRow[use]! + end; unit++) free[unit]! -= useAmount[use]!
      }
    }
  }
}
