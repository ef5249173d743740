import type { Rng } from '../../rng.ts'
import { createSearch } from './exact.ts'
import type { Indexed } from './indexed.ts'
import type { Pairs } from './pairs.ts'
import type { Progress } from './progress.ts'

/** Searches the whole problem for less at the first level not yet proved, so many conflicts at a time. */
export function createWhole(
  indexed: Indexed,
  pairs: Pairs | undefined,
  progress: Progress,
  rng: Rng,
): (conflicts: number) => void {
  const begin = () => {
    const search = createSearch(indexed, pairs ? { pairs } : {}, rng, { packing: progress.packing })
    for (let level = 0; level < progress.provenLevels; level++) search.demandAtMost(level, progress.best!.costs[level]!)
    return search
  }
  let search = begin()
  const proved = (): void => {
    if (!progress.best) progress.isImpossible = true
    else if (++progress.provenLevels < indexed.problem.costs.length) search = begin()
  }
  return (conflicts) => {
    for (let left = conflicts; left > 0 && !progress.isOver();) {
      const level = progress.provenLevels
      if (progress.best && !search.demandLess(level, progress.best.costs[level]!)) {
        proved()
        continue
      }
      const spentBefore = search.solver.conflicts()
      const outcome = search.run(progress.limits(left), progress.best)
      const spent = search.solver.conflicts() - spentBefore
      progress.spend(spent)
      left -= spent
      if (level === 0) progress.lowerBound = Math.max(progress.lowerBound, search.provedAtLeast(0))
      if (outcome === 'exhausted') proved()
      else if (outcome === 'stopped') return
      else progress.offer(search.schedule())
    }
  }
}
