import type { Indexed } from './indexed.ts'
import type { Limits } from './lcg/solver.ts'
import type { Packing } from './packing.ts'
import type { Solution, SolveOptions } from './problem.ts'
import { isBetter, toPlan, type Schedule } from './schedule.ts'

/** What is known so far, and what may still be spent. */
export type Progress = {
  best: Schedule | undefined
  /** Levels before it are proved to be least. */
  provenLevels: number
  isImpossible: boolean
  lowerBound: number
  iterations: number
  readonly packing: Packing | undefined
  readonly offer: (schedule: Schedule) => void
  readonly spend: (conflicts: number) => void
  readonly limits: (conflicts: number) => Limits
  readonly isOver: () => boolean
  readonly solution: () => Solution
}

export function createProgress(indexed: Indexed, options: SolveOptions): Progress {
  const cancelled = options.cancelled ?? (() => false)
  let spent = 0
  const progress: Progress = {
    best: undefined,
    provenLevels: 0,
    isImpossible: false,
    lowerBound: 0,
    iterations: 0,
    packing: options.oracle && { oracle: options.oracle, unproven: [] },
    offer: (schedule) => {
      if (progress.best && !isBetter(schedule.costs, progress.best.costs)) return
      progress.best = schedule
      options.onBetter?.(toPlan(indexed, schedule), schedule.costs)
    },
    spend: (conflicts) => {
      spent += conflicts
    },
    limits: (conflicts) => ({ conflicts: Math.min(conflicts, options.conflicts - spent), cancelled }),
    isOver: () =>
      spent >= options.conflicts ||
      progress.isImpossible ||
      progress.provenLevels === indexed.problem.costs.length ||
      cancelled(),
    solution: () => {
      const { best, provenLevels, lowerBound, iterations, isImpossible } = progress
      const isProved = provenLevels === indexed.problem.costs.length
      return {
        status: isImpossible ? 'infeasible' : best ? (isProved ? 'optimal' : 'feasible') : 'unknown',
        ...(best ? { plan: toPlan(indexed, best) } : {}),
        costs: best?.costs ?? [],
        lowerBound: best && provenLevels > 0 ? best.costs[0]! : lowerBound,
        unproven: progress.packing?.unproven ?? [],
        conflicts: spent,
        iterations,
      }
    },
  }
  return progress
}
