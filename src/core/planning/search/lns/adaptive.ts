import type { Rng } from '../../../rng.ts'

/** Keeps count of what worked: which arm to try next, and how large. */
export type Adaptive = {
  readonly pick: (rng: Rng) => number
  readonly size: (arm: number) => number
  /** @param gain 1 for an improvement, 0 for none @param wasEasy it was searched through well within its budget */
  readonly learn: (arm: number, gain: number, wasEasy: boolean, ranOut: boolean) => void
}

const MEMORY = 0.95
const LEAST_SHARE = 0.25

/**
 * Roulette by recent success, every arm keeping a least share; sizes grow while parts are searched through easily and
 * shrink when budgets run out.
 * @see Ropke & Pisinger (2006), adaptive large neighbourhood search, Transportation Science 40
 */
export function createAdaptive(arms: number, firstSize: number, leastSize: number, mostSize: number): Adaptive {
  const success = Array.from({ length: arms }, () => 1)
  const sizes = Array.from({ length: arms }, () => firstSize)
  return {
    pick: (rng) => {
      const mean = success.reduce((sum, one) => sum + one, 0) / arms
      const shares = success.map((one) => one + LEAST_SHARE * mean + 0.01)
      let ball = rng.next() * shares.reduce((sum, one) => sum + one, 0)
      for (let arm = 0; arm < arms; arm++) {
        ball -= shares[arm]!
        if (ball < 0) return arm
      }
      return arms - 1
    },
    size: (arm) => Math.round(sizes[arm]!),
    learn: (arm, gain, wasEasy, ranOut) => {
      success[arm] = MEMORY * success[arm]! + (1 - MEMORY) * gain
      if (wasEasy) sizes[arm] = Math.min(mostSize, sizes[arm]! * 1.03)
      else if (ranOut) sizes[arm] = Math.max(leastSize, sizes[arm]! * 0.97)
    },
  }
}
