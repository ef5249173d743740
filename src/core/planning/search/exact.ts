import type { Rng } from '../../rng.ts'
import { compile } from './compile.ts'
import { compileCosts } from './costs.ts'
import type { Indexed } from './indexed.ts'
import { not, type Literal } from './lcg/model.ts'
import { createSolver, type Limits, type Outcome, type Solver } from './lcg/solver.ts'
import { LEFT_OUT, type Schedule } from './schedule.ts'
import { packingCuts, type Packing } from './packing.ts'
import type { Compiled, Scope, Truth } from './scope.ts'

/** A model of the problem (or of what a neighbourhood leaves free) with its solver, asked for better and better. */
export type Search = {
  readonly compiled: Compiled
  readonly solver: Solver
  readonly levels: readonly number[]
  /** Demands less than `cost` at the level. @returns false if that is impossible */
  readonly demandLess: (level: number, cost: number) => boolean
  readonly demandAtMost: (level: number, cost: number) => boolean
  /** @param assumptions those in force, if the search was made to be asked with some */
  readonly run: (limits: Limits, guide: Schedule | undefined, assumptions?: readonly number[]) => Outcome
  /** After `found`. */
  readonly schedule: () => Schedule
  /** What the level costs at least, as far as that is known without any guess. */
  readonly provedAtLeast: (level: number) => number
}

export type SearchKind = {
  /** Whether all assumptions are facts, or none until they are asked for. */
  readonly assume?: 'all' | 'none'
  /** A short search restarts soon. */
  readonly isShort?: boolean
  /** What is found must pack. */
  readonly packing?: Packing | undefined
}

export function createSearch(indexed: Indexed, scope: Scope, rng: Rng, kind: SearchKind = {}): Search {
  const compiled = compile(indexed, scope)
  const levels = compileCosts(indexed, compiled)
  const { model, assumptions, choices } = compiled
  if (kind.assume !== 'none') for (const { side } of assumptions) model.lower[side >> 1] = 1
  const solver = createSolver(model)
  const { value } = solver.engine
  const tasks = Array.from({ length: indexed.taskCount }, (_, task) => task)
  const starts = tasks.filter((task) => model.lower[task]! < model.upper[task]!)
  const isTrue = (truth: Truth): boolean => (typeof truth === 'boolean' ? truth : value[truth.side]! >= truth.least)

  /** What is not asked for is let go, so that no guess holds to it. */
  const assumed = (asked: readonly number[]): Literal[] => {
    const isAsked = new Set(asked)
    return assumptions.map((assumption, index) => (isAsked.has(index) ? assumption : not(assumption)))
  }

  const runOnce = (limits: Limits, guide: Schedule | undefined, asked: readonly number[]): Outcome =>
    solver.run(
      {
        assumptions: kind.assume === 'none' ? assumed(asked) : [],
        starts,
        choices,
        guide: (variable) => guide?.start[variable],
        coin: rng.next,
        isShort: kind.isShort ?? false,
      },
      limits,
    )

  const run: Search['run'] = (limits, guide, asked = []) => {
    const until = solver.conflicts() + limits.conflicts
    for (;;) {
      const outcome = runOnce({ ...limits, conflicts: until - solver.conflicts() }, guide, asked)
      if (outcome !== 'found' || !kind.packing) return outcome
      const cuts = packingCuts(indexed, compiled, isTrue, kind.packing)
      if (cuts.length === 0) return 'found'
      for (const cut of cuts) solver.addClause(cut)
    }
  }

  return {
    compiled,
    solver,
    levels,
    demandLess: (level, cost) => solver.addFact({ side: 2 * levels[level]! + 1, least: 1 - cost }),
    demandAtMost: (level, cost) => solver.addFact({ side: 2 * levels[level]! + 1, least: -cost }),
    run,
    schedule: () => ({
      start: Int32Array.from(tasks, (task) => value[2 * task]!),
      mode: Int32Array.from(compiled.modeTruth, (ofTask) => {
        const taken = ofTask.findIndex(isTrue)
        return taken < 0 ? LEFT_OUT : taken
      }),
      slot: slotsOf(compiled, indexed.taskCount, isTrue),
      costs: levels.map((level) => value[2 * level]!),
    }),
    provedAtLeast: (level) => {
      const side = 2 * levels[level]!
      const { levelStarts, valueBefore } = solver.engine
      return levelStarts.length === 0 ? value[side]! : valueBefore(side, levelStarts[0]!)
    },
  }
}

function slotsOf({ seats }: Compiled, taskCount: number, isTrue: (truth: Truth) => boolean): Int32Array {
  const slots = new Int32Array(taskCount).fill(-1)
  for (const { member, slot, truth } of seats) if (isTrue(truth)) slots[member] = slot
  return slots
}
