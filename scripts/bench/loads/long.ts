/** How much of what a minute places a second does: 40 pieces in one round kiln. */
import { fits, fullestLoad } from '#core/loading/fits.ts'
import { someKilns } from '../../../test/core/loading/examples.ts'
import { cpuSeconds } from '../machineFactor.ts'
import { areaOf, fortyPieces, placed } from './oracle.ts'

/** Rounds by which it is judged how many the given time allows. */
const JUDGED_BY = 1_000

/** @param seconds CPU time of the long search, about; @returns area that `thorough` places, of that of the long search */
export function shareOfLong(seed: number, seconds: number): number {
  const kiln = someKilns.round
  const items = fortyPieces(seed)
  const thorough = fits(kiln, items, 'glaze', 'thorough')
  const judged = cpuSeconds(() => fullestLoad(kiln, items, 'glaze', JUDGED_BY))
  const long = fullestLoad(kiln, items, 'glaze', Math.round((JUDGED_BY * seconds) / judged))
  return placed(thorough, items, areaOf) / placed(long, items, areaOf)
}
