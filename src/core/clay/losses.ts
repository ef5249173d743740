import type { LossRates } from './types.ts'

/**
 * Losses to start from, until the logbook knows better. Common practice, no source; in print they run from "close to none"
 * to 28 % over the whole way. The correlation is our choice: a load that goes wrong seldom spoils one piece.
 */
export const usualLosses: LossRates = {
  dryingRatio: 0.05,
  bisqueRatio: 0.02,
  glazeRatio: 0.04,
  secondRatio: 0.06,
  correlation: 0.1,
}

/** The same for wide flats, which warp and crack at rims: 1.5-2 times as much in all stages. Common practice, no source. */
export const wideFlatLosses: LossRates = {
  ...usualLosses,
  dryingRatio: 0.09,
  bisqueRatio: 0.035,
  glazeRatio: 0.07,
  secondRatio: 0.1,
}

/** Past so many times the count that does it on average, more pieces help against bad luck no longer. */
const MOST_TIMES_MEAN = 3

/**
 * The smallest count to start so that enough come out good at the odds wanted; not count / yield, which does it only in
 * about half of all cases.
 * @param good 0 or more
 * @param odds 0.5-0.99
 * @returns at least `good`; where luck is so shared that even three times the mean does not reach the odds, that
 * (see `oddsOfGood` for what it gives)
 */
export function countToStart(good: number, odds: number, losses: LossRates): number {
  if (good <= 0) return 0
  const meanCount = good / goodRatio(losses)
  const most = Math.ceil(MOST_TIMES_MEAN * meanCount) + 1
  const suffices = (count: number): boolean => count >= most || oddsOfGood(count, good, losses) >= odds
  // Odds rise with the count, and the answer is seldom far above the mean: from there in doubling steps, then halving.
  let tooFew = good - 1
  let enough = Math.max(good, Math.floor(meanCount))
  for (let step = 1; !suffices(enough); step *= 2) {
    tooFew = enough
    enough = Math.min(most, enough + step)
  }
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2)
    if (suffices(middle)) enough = middle
    else tooFew = middle
  }
  return enough
}

/** Odds that of so many started at least `good` come out good. Counts whole, 0 or more. */
export function oddsOfGood(started: number, good: number, losses: LossRates): number {
  const counts = goodCounts(started, losses)
  let odds = 0
  for (let count = counts.length - 1; count >= good; count--) odds += counts[count]!
  return Math.min(1, odds)
}

/** Share of the pieces started that come out good on average, refires included. */
export function goodRatio({
  dryingRatio,
  bisqueRatio,
  glazeRatio,
  secondRatio,
  refireGoodRatio = 0,
}: LossRates): number {
  const glazed = 1 - glazeRatio * (1 - refireGoodRatio)
  return (1 - dryingRatio) * (1 - bisqueRatio) * glazed * (1 - secondRatio)
}

/**
 * How many come out good: [count] is its probability. Each stage is beta-binomial, so that pieces of one load share their
 * luck; what the glaze firing spoiled is fired again piece by piece.
 * @see Skellam (1948), J. R. Stat. Soc. B 10, 257-261; correlation = 1 / (alpha + beta + 1)
 */
export function goodCounts(started: number, losses: LossRates): Float64Array {
  const { dryingRatio, bisqueRatio, glazeRatio, secondRatio, correlation, refireGoodRatio = 0 } = losses
  const dried = survivors(started, dryingRatio, correlation)
  const bisqued = thinned(dried, (count) => survivors(count, bisqueRatio, correlation))
  const fired = thinned(bisqued, (count) => refired(survivors(count, glazeRatio, correlation), refireGoodRatio))
  return thinned(fired, (count) => survivors(count, secondRatio, correlation))
}

/** Counts less likely than this change no odds that anybody sees. */
const NEGLIGIBLE = 1e-15

/** The distribution after a stage, from that before it and what the stage leaves of each count. */
function thinned(before: Float64Array, left: (count: number) => Float64Array): Float64Array {
  const after = new Float64Array(before.length)
  for (let count = 0; count < before.length; count++) {
    const probability = before[count]!
    if (probability < NEGLIGIBLE) continue
    const shares = left(count)
    for (let survived = 0; survived <= count; survived++) after[survived]! += probability * shares[survived]!
  }
  return after
}

/** Beta-binomial survivors of one stage, summed from the likelier end: the first term does not underflow there. */
function survivors(count: number, lostRatio: number, correlation: number): Float64Array {
  if (lostRatio > 0.5) return survivors(count, 1 - lostRatio, correlation).toReversed()
  const shares = new Float64Array(count + 1)
  // Weights alpha + j and beta + j, both times correlation / (1 - correlation), which tends to the binomial at 0.
  const shared = correlation / (1 - correlation)
  let share = 1
  for (let j = 0; j < count; j++) share *= (1 - lostRatio + shared * j) / (1 + shared * j)
  shares[count] = share
  for (let k = count; k > 0; k--) {
    const lost = count - k
    share *= (k * (lostRatio + shared * lost)) / ((lost + 1) * (1 - lostRatio + shared * (k - 1)))
    shares[k - 1] = share
  }
  return shares
}

/** Of the spoiled, each comes good on its own by the odds of a refire. */
function refired(shares: Float64Array, refireGoodRatio: number): Float64Array {
  if (refireGoodRatio === 0) return shares
  const after = new Float64Array(shares.length)
  shares.forEach((share, survived) => {
    if (share < NEGLIGIBLE) return
    const spoiled = shares.length - 1 - survived
    survivors(spoiled, 1 - refireGoodRatio, 0).forEach((odds, mended) => (after[survived + mended]! += share * odds))
  })
  return after
}
