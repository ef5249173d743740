/**
 * The draws of chance that a plan and its check share, so that a window held in the one is held in the other. They depend
 * on the clay and the seed alone, not on the order in which anything is asked.
 */
import { jointDraws, priorBeliefs } from '#core/drying/draws.ts'
import type { Draw } from '#core/drying/types.ts'
import { seedOf } from '#core/rng.ts'
import type { ClayBody } from '#core/studio/studio.ts'

/** Futures looked at while a plan is searched and checked. */
export const COMMON_DRAWS = 20
/** Odds at which ware counts as dry at its thickest spot; below, it is doubtful and candled long (`candlingFor`). */
export const DRY_ODDS = 0.95

/**
 * Odds down to which clay that is cut already is brought on: a run is never begun at less than the studio's odds, but
 * weather turns, and what lies on the board is not given up while it may still be joined. Our choice.
 */
export const LEAST_ODDS_UNDER_WAY = 0.5

/** The common draws for ware of this clay. */
export const commonDraws = (clay: ClayBody, seed: number): readonly Draw[] =>
  jointDraws(priorBeliefs(clay.drying), COMMON_DRAWS, seedOf(`${clay.id} ${seed}`))

/**
 * How many of the common draws make up these odds: their plain share. Of a future that is not among n draws k / (n + 1) is
 * to be expected, which is 86 % where 18 of 20 are said to be 90 %; asking 19 (90.5 %) left over a twentieth of the test
 * studio's orders late, so odds of windows are the futures looked at, and `npm run bench:coverage` tells what odds are
 * worth outside them.
 */
export const drawsFor = (odds: number): number => Math.ceil(odds * COMMON_DRAWS - 1e-9)
