import type { Rng } from '../../../rng.ts'
import type { Freedom, Scope } from '../compile.ts'
import { createSearch } from '../exact.ts'
import type { Indexed } from '../indexed.ts'
import type { Limits } from '../lcg/solver.ts'
import { cannotOverlap, type OpenPair, type Pairs } from '../pairs.ts'
import { isBetter, type Schedule } from '../schedule.ts'
import { chainsOf } from './chains.ts'

/** What came of planning a part anew. */
export type Attempt = {
  readonly better: Schedule | undefined
  /** Nothing better lies in this part: a proof, given the rest. */
  readonly isExhausted: boolean
  readonly conflicts: number
}

/** How the rest stays: as a partial order that may move, or where it is. */
export type Hold = 'movable' | 'fixed'

export type Part = {
  readonly tasks: readonly number[]
  readonly hold: Hold
  /** The level that must become less, while those before it must not become more. */
  readonly level: number
}

/** Seeks a schedule that is better at the part's level by changing only its tasks. */
export function improveWithin(
  indexed: Indexed,
  pairs: Pairs | undefined,
  schedule: Schedule,
  part: Part,
  limits: Limits,
  rng: Rng,
): Attempt {
  const search = createSearch(indexed, scopeOf(indexed, pairs, schedule, part), rng)
  let better: Schedule | undefined
  const stop = (isExhausted: boolean): Attempt => ({ better, isExhausted, conflicts: search.solver.conflicts() })
  for (let level = 0; level < part.level; level++) {
    if (!search.demandAtMost(level, schedule.costs[level]!)) return stop(true)
  }
  if (!search.demandLess(part.level, schedule.costs[part.level]!)) return stop(true)
  for (;;) {
    const left = { ...limits, conflicts: limits.conflicts - search.solver.conflicts() }
    const outcome = search.run(left, better ?? schedule)
    if (outcome !== 'found') return stop(outcome === 'exhausted')
    const found = search.schedule()
    if (isBetter(found.costs, (better ?? schedule).costs)) better = found
    if (!search.demandLess(part.level, found.costs[part.level]!)) return stop(true)
    if (search.solver.conflicts() >= limits.conflicts) return stop(false)
  }
}

function scopeOf(indexed: Indexed, pairs: Pairs | undefined, schedule: Schedule, { tasks, hold }: Part): Scope {
  const freedom: Freedom[] = Array.from({ length: indexed.taskCount }, () => hold)
  for (const task of tasks) freedom[task] = 'free'
  const isFree = (task: number) => freedom[task] === 'free'
  if (hold === 'movable') {
    const open = (pairs?.open ?? []).filter(({ a, b }) => isFree(a) || isFree(b))
    return {
      incumbent: { schedule, freedom },
      pairs: { forced: pairs?.forced ?? [], open },
      precedences: chainsOf(indexed, schedule, (task) => !isFree(task)),
    }
  }
  return { incumbent: { schedule, freedom }, pairs: { forced: [], open: pairsAmong(indexed, tasks) } }
}

function pairsAmong(indexed: Indexed, tasks: readonly number[]): OpenPair[] {
  const ordinary = tasks.filter((task) => indexed.groupOf[task]! < 0 && indexed.modes[task]!.length === 1)
  return ordinary.flatMap((a, i) =>
    ordinary.slice(i + 1).flatMap((b) => (cannotOverlap(indexed, a, b) ? [{ a, b }] : [])),
  )
}
