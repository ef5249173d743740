/** What can be promised of a line of an order: its runs may each lose pieces, and what one has over helps another out. */
import { goodCounts } from '#core/clay/losses.ts'
import type { LossRates } from '#core/clay/types.ts'

export type Source = {
  /** Pieces that the run has now or will begin; whole, 0 or more. */
  readonly started: number
  /** Of those that come out good, so many go to lines before this one; whole, 0 or more. */
  readonly before: number
  /** Of the stages still to come. */
  readonly losses: LossRates
  /** Odds that the run comes to its end as planned at all, 0-1: its windows held, dry when loaded. */
  readonly holdsOdds: number
}

/**
 * Odds that `asked` good pieces come of all sources together. Sources share no luck: the convolution of their counts,
 * each at nothing where it does not hold.
 * @param asked whole, 0 or more
 */
export function lineOdds(asked: number, sources: readonly Source[]): number {
  let together = new Float64Array([1])
  for (const source of sources) together = sum(together, leftFor(source))
  return Math.min(
    1,
    together.subarray(asked).reduce((odds, share) => odds + share, 0),
  )
}

/** How many a source has for the line: [count] is its probability. */
function leftFor({ started, before, losses, holdsOdds }: Source): Float64Array {
  const left = new Float64Array(Math.max(0, started - before) + 1)
  goodCounts(started, losses).forEach((share, good) => (left[Math.max(0, good - before)]! += share * holdsOdds))
  left[0]! += 1 - holdsOdds
  return left
}

function sum(a: Float64Array, b: Float64Array): Float64Array<ArrayBuffer> {
  const both = new Float64Array(a.length + b.length - 1)
  a.forEach((shareA, countA) => b.forEach((shareB, countB) => (both[countA + countB]! += shareA * shareB)))
  return both
}
