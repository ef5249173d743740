import type { Indexed, ModeChoice } from '../indexed.ts'
import { firstAtLeast, lastAtMost, valueAt } from '../lcg/stepFunction.ts'
import { LEFT_OUT, type Schedule } from '../schedule.ts'
import { createUsage } from './usage.ts'

/** A schedule in which single tasks move while all the others stay; it never breaks what it did not break before. */
export type Room = {
  readonly start: Int32Array
  readonly durationOf: (task: number) => number
  /** Moves the task to the first start from `leastMin` on, but not past where it is. */
  readonly pull: (task: number, leastMin: number) => void
  /** Moves the task to the last start up to `mostMin`, but not before where it is. */
  readonly push: (task: number, mostMin: number) => void
}

export function createRoom(indexed: Indexed, { start: original, mode }: Schedule): Room {
  const start = original.slice()
  const { modes, resources, taskCount } = indexed
  const modeOf = (task: number) => (mode[task] === LEFT_OUT ? undefined : modes[task]![mode[task]!])
  const durationOf = (task: number) => modeOf(task)?.durationMin ?? 0
  const usages = resources.map(({ capacity, missing }) => {
    const usage = createUsage(capacity)
    for (const { startMin, endMin, amount } of missing) usage.change(startMin, endMin, amount)
    return usage
  })
  const take = (task: number, sign: 1 | -1): void => {
    const taken = modeOf(task)
    if (!taken || taken.durationMin === 0) return
    for (const { resource, amount } of taken.demands) {
      usages[resource]!.change(start[task]!, start[task]! + taken.durationMin, sign * amount)
    }
  }
  for (let task = 0; task < taskCount; task++) take(task, 1)
  const ties = tiesOf(indexed, mode)
  const originMin = -indexed.problem.horizon.startMin
  const startOf = (node: number) => (node === taskCount ? originMin : start[node]!)

  /** Moves step over holes and full spans until one start suits the calendar and every resource. */
  const seek = (task: number, fromMin: number, limitMin: number, later: boolean): number => {
    const { durationMin, demands, starts } = modeOf(task)!
    const isPast = (minute: number) => (later ? minute > limitMin : minute < limitMin)
    let at = fromMin
    for (let before = NaN; at !== before && !isPast(at);) {
      before = at
      if (starts) at = later ? nextIn(starts, at) : lastIn(starts, at)
      if (durationMin === 0) continue
      for (const { resource, amount } of demands) {
        if (isPast(at)) break
        const usage = usages[resource]!
        at = later ? usage.earliest(at, durationMin, amount, limitMin) : usage.latest(at, durationMin, amount, limitMin)
      }
    }
    return isPast(at) ? start[task]! : at
  }

  const move = (task: number, wantedMin: number, later: boolean): void => {
    if (!modeOf(task)) return
    let fromMin = wantedMin
    for (const tie of ties[task]!) {
      fromMin = later ? Math.max(fromMin, tie.least(startOf)) : Math.min(fromMin, tie.most(startOf))
    }
    const now = start[task]!
    if (later ? fromMin >= now : fromMin <= now) return
    take(task, -1)
    start[task] = seek(task, fromMin, now, later)
    take(task, 1)
  }

  return {
    start,
    durationOf,
    pull: (task, leastMin) => move(task, Math.max(leastMin, 0), true),
    push: (task, mostMin) => move(task, Math.min(mostMin, indexed.horizonMin - durationOf(task)), false),
  }
}

/** What another start says about a task's: at least so much, at most so much. */
type Tie = {
  readonly least: (startOf: (node: number) => number) => number
  readonly most: (startOf: (node: number) => number) => number
}

function tiesOf({ taskCount, links, curves }: Indexed, mode: Int32Array): Tie[][] {
  const ties: Tie[][] = Array.from({ length: taskCount + 1 }, () => [])
  const isDone = (node: number) => node === taskCount || mode[node] !== LEFT_OUT
  const holds = (from: number, to: number, conditions: readonly ModeChoice[]) =>
    from !== to && isDone(from) && isDone(to) && conditions.every((choice) => mode[choice.task] === choice.mode)
  const none = () => -Infinity
  const any = () => Infinity
  for (const { from, weight, to, conditions } of links) {
    if (!holds(from, to, conditions)) continue
    ties[to]!.push({ least: (startOf) => startOf(from) + weight, most: any })
    ties[from]!.push({ least: none, most: (startOf) => startOf(to) - weight })
  }
  for (const { from, to, bound, steps, conditions } of curves) {
    if (!holds(from, to, conditions)) continue
    if (bound === 'at-least') {
      ties[to]!.push({ least: (startOf) => valueAt(steps, startOf(from)), most: any })
      ties[from]!.push({ least: none, most: (startOf) => lastAtMost(steps, startOf(to)) })
    } else {
      ties[to]!.push({ least: none, most: (startOf) => valueAt(steps, startOf(from)) })
      ties[from]!.push({ least: (startOf) => firstAtLeast(steps, startOf(to)), most: any })
    }
  }
  return ties
}

type Spans = readonly { readonly startMin: number; readonly endMin: number }[]

const nextIn = (spans: Spans, minute: number): number => {
  const span = spans[firstAfter(spans, minute)]
  return span ? Math.max(minute, span.startMin) : Infinity
}

const lastIn = (spans: Spans, minute: number): number => {
  const next = firstAfter(spans, minute)
  const span = spans[next]
  if (span && span.startMin <= minute) return minute
  return next > 0 ? spans[next - 1]!.endMin - 1 : -Infinity
}

/** Index of the first span that ends after the minute; spans are disjoint and rise. */
function firstAfter(spans: Spans, minute: number): number {
  let low = 0
  let high = spans.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (spans[middle]!.endMin > minute) high = middle
    else low = middle + 1
  }
  return low
}
