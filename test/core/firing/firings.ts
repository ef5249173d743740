import type { FiringLoad, FiringOutcome, FiringSchedule, FiringTimes, KilnFiring } from '#core/firing/types.ts'
import { w32 } from '../../golden/firing/workedExamples.ts'

/** The 7 ft³ kiln of the worked energy balances; cooling as that size cools. */
export const aKiln = (but: Partial<KilnFiring> = {}): KilnFiring => ({
  maxTempC: 1290,
  coolingTauH: 7.2,
  ventedTauH: 4.7,
  coolsVented: false,
  lossFactor: 1,
  switchUpsMin: [],
  readingOffsetC: 0,
  ...w32.kiln,
  ...but,
})

export const aLoad = (but: Partial<FiringLoad> = {}): FiringLoad => ({ ...w32.load, ...but })

export const aGlazeFiring = (but: Partial<FiringSchedule> = {}): FiringSchedule => ({
  name: 'glaze 6',
  kind: 'glaze',
  cone: '6',
  segments: w32.segments,
  ...but,
})

export function timesOf(outcome: FiringOutcome): FiringTimes {
  if (outcome.kind !== 'times') throw new Error(`impossible: ${outcome.reason.code}`)
  return outcome.times
}
