import type { Rng } from '../../../rng.ts'
import type { Indexed } from '../indexed.ts'
import type { Progress } from '../progress.ts'
import { createArranger } from './arrange.ts'

/** Beyond so many ways to seat a member, families counted, firings are searched in parts only once there is a plan. */
const MOST_WAYS = 40_000
/** So many changes tried count as a conflict. */
const TRIES_A_CONFLICT = 20

/** Turns of the search over who is fired with whom; nothing happens in a problem without kilns. */
export function createRearranging(indexed: Indexed, progress: Progress, rng: Rng) {
  const { cancelled } = progress.limits(0)
  const { first, step } = createArranger(indexed, progress.packing, cancelled, rng)
  return {
    begin: (): void => {
      const schedule = progress.best ? undefined : first()
      if (schedule) progress.offer(schedule)
    },
    turn: (): void => {
      if (progress.isOver()) return
      const { next, tries } = step(progress.best!)
      progress.spend(Math.ceil(tries / TRIES_A_CONFLICT))
      if (next) progress.offer(next)
    },
  }
}

/** Whether all that could be fired together is too much to be searched as one. */
export function hasManyWays({ kilns, modes }: Indexed): boolean {
  const ways = kilns.map(
    ({ slots, members }) => members.length * slots.reduce((all, slot) => all + modes[slot]!.length, 0),
  )
  return ways.reduce((sum, each) => sum + each, 0) > MOST_WAYS
}
