import type { Rng } from '../../../rng.ts'
import type { Freedom, Scope } from '../scope.ts'
import { createSearch } from '../exact.ts'
import type { Indexed } from '../indexed.ts'
import { sizeOf } from '../lcg/model.ts'
import type { Limits } from '../lcg/solver.ts'
import type { Packing } from '../packing.ts'
import { cannotOverlap, type OpenPair, type Pairs } from '../pairs.ts'
import type { Schedule } from '../schedule.ts'
import { chainsOf } from './chains.ts'

/** What came of planning a part anew. */
export type Attempt = {
  readonly next: Schedule | undefined
  /** Nothing (more) of the kind lies in this part: a proof, given the rest. */
  readonly isExhausted: boolean
  readonly conflicts: number
  /** The time of it, in conflicts: making the model counts too, for a part is often settled by few. */
  readonly work: number
}

/** So many variables, arcs and entries of time-tables are made and first propagated in about the time of a conflict. */
const MADE_A_CONFLICT = 50

/** How the rest stays: as a partial order that may move, or where it is. */
export type Hold = 'movable' | 'fixed'

export type Part = {
  readonly tasks: readonly number[]
  readonly hold: Hold
  /** Levels before it must not become more. */
  readonly level: number
  /** The level must become less; or it may stay, and any other schedule of that cost will do. */
  readonly aim: 'less' | 'other'
}

/** Plans the tasks of the part anew. */
export function planPart(
  indexed: Indexed,
  pairs: Pairs | undefined,
  packing: Packing | undefined,
  schedule: Schedule,
  part: Part,
  limits: Limits,
  rng: Rng,
): Attempt {
  const search = createSearch(indexed, scopeOf(indexed, pairs, schedule, part), rng, { isShort: true, packing })
  let next: Schedule | undefined
  const making = Math.ceil(sizeOf(search.compiled.model) / MADE_A_CONFLICT)
  const stop = (isExhausted: boolean): Attempt => {
    const conflicts = search.solver.conflicts()
    return { next, isExhausted, conflicts, work: making + conflicts }
  }
  for (let level = 0; level < part.level; level++) {
    if (!search.demandAtMost(level, schedule.costs[level]!)) return stop(true)
  }
  const cost = schedule.costs[part.level]!
  if (part.aim === 'less' ? !search.demandLess(part.level, cost) : !search.demandAtMost(part.level, cost))
    return stop(true)
  for (;;) {
    const left = { ...limits, conflicts: limits.conflicts - search.solver.conflicts() }
    const outcome = search.run(left, part.aim === 'less' ? (next ?? schedule) : undefined)
    if (outcome !== 'found') return stop(outcome === 'exhausted')
    next = search.schedule()
    if (part.aim === 'other' || search.solver.conflicts() >= limits.conflicts) return stop(false)
    if (!search.demandLess(part.level, next.costs[part.level]!)) return stop(true)
  }
}

function scopeOf(indexed: Indexed, pairs: Pairs | undefined, schedule: Schedule, { tasks, hold }: Part): Scope {
  const freedom: Freedom[] = Array.from({ length: indexed.taskCount }, () => hold)
  for (const task of tasks) freedom[task] = 'free'
  const isFree = (task: number) => freedom[task] === 'free'
  if (hold === 'movable') {
    // What is over before the part begins stays where it is: moving it would not make room.
    const firstMin = tasks.reduce((first, task) => Math.min(first, schedule.start[task]!), Infinity)
    for (let task = 0; task < indexed.taskCount; task++) {
      if (!isFree(task) && endOf(indexed, schedule, task) <= firstMin) freedom[task] = 'fixed'
    }
    const open = (pairs?.open ?? []).filter(({ a, b }) => isFree(a) || isFree(b))
    return {
      incumbent: { schedule, freedom },
      pairs: { forced: pairs?.forced ?? [], open },
      precedences: chainsOf(indexed, schedule, (task) => freedom[task] === 'movable'),
      window: { startMin: earliestOpen(schedule, freedom), endMin: indexed.horizonMin },
    }
  }
  return { incumbent: { schedule, freedom }, pairs: { forced: [], open: pairsAmong(indexed, tasks) } }
}

const endOf = ({ modes }: Indexed, { start, mode }: Schedule, task: number): number =>
  start[task]! + (modes[task]![mode[task]!]?.durationMin ?? 0)

function earliestOpen({ start }: Schedule, freedom: readonly Freedom[]): number {
  return freedom.reduce((first, one, task) => (one === 'fixed' ? first : Math.min(first, start[task]!)), Infinity)
}

function pairsAmong(indexed: Indexed, tasks: readonly number[]): OpenPair[] {
  const ordinary = tasks.filter((task) => indexed.groupOf[task]! < 0 && indexed.modes[task]!.length === 1)
  return ordinary.flatMap((a, i) =>
    ordinary.slice(i + 1).flatMap((b) => (cannotOverlap(indexed, a, b) ? [{ a, b }] : [])),
  )
}
