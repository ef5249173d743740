/** What the logbook tells of a run's clay up to now: how it waited, and how it felt. Facts that plan and check share. */
import type { Observation } from '#core/drying/runStates.ts'
import type { CoverSpan } from '#core/drying/types.ts'
import type { RunState } from '#core/logbook/state.ts'
import type { Design } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'

/** Ware cut longer ago is dry whatever lay over it: its history is followed from here on. */
const LONGEST_HISTORY_MIN = 60 * MIN_PER_DAY

/**
 * Covers since the cut, rising. Waits that were logged before it (a rough time) begin with it; of a cut long ago only the
 * last two months are told.
 */
export function spansSoFar({ waits, cutMin }: RunState, nowMin: Minute): readonly CoverSpan[] {
  const beginMin = Math.max(cutMin ?? Number.NEGATIVE_INFINITY, nowMin - LONGEST_HISTORY_MIN)
  const spans = waits.map(({ fromMin, cover, spotId, turned }) => ({
    fromMin: Math.max(fromMin, beginMin),
    cover,
    spotId,
    ...(turned ? { turned } : {}),
  }))
  const firstThatCounts = Math.max(
    0,
    spans.findLastIndex(({ fromMin }) => fromMin === beginMin),
  )
  return spans.slice(firstThatCounts)
}

/** What hands said of it, where it was said of a step whose band is known. */
export const feltSoFar = ({ felt }: RunState, { steps }: Design): readonly Observation[] =>
  felt.flatMap(({ minute, stepId, verdict }): Observation[] => {
    const band = steps.find(({ id }) => id === stepId)?.band
    return band ? [{ kind: 'felt', minute, verdict, band }] : []
  })
