import type { Indexed } from './indexed.ts'
import { not } from './lcg/model.ts'
import type { PackingOracle } from './problem.ts'
import type { Compiled, Truth } from './scope.ts'

/** Asks the packing oracle about every firing of a plan found. */
export type Packing = {
  readonly oracle: PackingOracle
  /** Sets that were only not found to pack; what is concluded without them is no proof. */
  readonly unproven: (readonly string[])[]
}

/**
 * Clauses that keep apart, in every slot of the kiln, members that the oracle says do not fit one firing.
 * Flat literals as for the solver; none if every firing fits.
 */
export function packingCuts(
  { problem, kilns }: Indexed,
  { seats }: Compiled,
  isTrue: (truth: Truth) => boolean,
  packing: Packing,
): number[][] {
  return kilns.flatMap(({ slots }, kiln) => {
    const { id } = problem.kilns![kiln]!
    const own = seats.filter((seat) => seat.kiln === kiln)
    return slots.flatMap((slot) => {
      const inside = own.filter((seat) => seat.slot === slot && isTrue(seat.truth))
      if (inside.length === 0) return []
      const answer = packing.oracle(
        id,
        inside.map(({ member }) => problem.tasks[member]!.id),
      )
      if (answer.outcome === 'fits') return []
      if (answer.outcome === 'not-found') packing.unproven.push(answer.memberIds)
      const apart = new Set(answer.memberIds)
      return slots.flatMap((each) => {
        const together = own.filter((seat) => seat.slot === each && apart.has(problem.tasks[seat.member]!.id))
        if (together.length < apart.size || together.some(({ truth }) => truth === false)) return []
        return [together.flatMap(({ truth }) => (truth === true ? [] : literalPair(truth as Exclude<Truth, boolean>)))]
      })
    })
  })
}

function literalPair(truth: Exclude<Truth, boolean>): number[] {
  const { side, least } = not(truth)
  return [side, least]
}
