/** What the logbook tells of a run's clay up to now: how it waited, and how it felt. Facts that plan and check share. */
import type { Observation } from '#core/drying/runStates.ts'
import type { CoverSpan } from '#core/drying/types.ts'
import type { RunState } from '#core/logbook/state.ts'
import type { Design } from '#core/studio/studio.ts'

/** Covers since the cut. Waits that were logged before it (a rough time) begin with it. */
export const spansSoFar = ({ waits, cutMin }: RunState): readonly CoverSpan[] =>
  waits.map(({ fromMin, cover, spotId, turned }) => ({
    fromMin: Math.max(fromMin, cutMin ?? fromMin),
    cover,
    spotId,
    ...(turned ? { turned } : {}),
  }))

/** What hands said of it, where it was said of a step whose band is known. */
export const feltSoFar = ({ felt }: RunState, { steps }: Design): readonly Observation[] =>
  felt.flatMap(({ minute, stepId, verdict }): Observation[] => {
    const band = steps.find(({ id }) => id === stepId)?.band
    return band ? [{ kind: 'felt', minute, verdict, band }] : []
  })
