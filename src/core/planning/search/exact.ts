import type { Rng } from '../../rng.ts'
import { compile } from './compile.ts'
import { compileCosts } from './costs.ts'
import type { Indexed } from './indexed.ts'
import { createSolver, type Limits, type Outcome, type Solver } from './lcg/solver.ts'
import { LEFT_OUT, type Schedule } from './schedule.ts'
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

  return {
    compiled,
    solver,
    levels,
    demandLess: (level, cost) => solver.addFact({ side: 2 * levels[level]! + 1, least: 1 - cost }),
    demandAtMost: (level, cost) => solver.addFact({ side: 2 * levels[level]! + 1, least: -cost }),
    run: (limits, guide, asked = []) =>
      solver.run(
        {
          assumptions: asked.map((assumption) => assumptions[assumption]!),
          starts,
          choices,
          guide: (variable) => guide?.start[variable],
          coin: rng.next,
          isShort: kind.isShort ?? false,
        },
        limits,
      ),
    schedule: () => ({
      start: Int32Array.from(tasks, (task) => value[2 * task]!),
      mode: Int32Array.from(compiled.modeTruth, (ofTask) => {
        const taken = ofTask.findIndex(isTrue)
        return taken < 0 ? LEFT_OUT : taken
      }),
      slot: new Int32Array(indexed.taskCount).fill(-1),
      costs: levels.map((level) => value[2 * level]!),
    }),
    provedAtLeast: (level) => {
      const side = 2 * levels[level]!
      const { levelStarts, valueBefore } = solver.engine
      return levelStarts.length === 0 ? value[side]! : valueBefore(side, levelStarts[0]!)
    },
  }
}
