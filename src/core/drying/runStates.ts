import { seededRng } from '../rng.ts'
import type { Minute } from '../time.ts'
import { trajectory } from './fullModel.ts'
import { cellShare } from './slab.ts'
import type { AirOfSpot, CoverSpan, Draw, PartClass, PartState, StepBand, ZoneState } from './types.ts'
import { moistureBandOf } from './windows.ts'

/** What a hand said of a part: against the band of a step, or of the ware itself. */
export type FeltVerdict = 'too soft' | 'just right' | 'too dry' | 'chalky' | 'dry'

/** Something that was learned of a run while it dried. */
export type Observation =
  | { readonly kind: 'felt'; readonly minute: Minute; readonly verdict: FeltVerdict; readonly band: StepBand }
  /** `massRatio`: mass now over mass as cut; `errorRatio`: the scale's standard error over mass as cut. */
  | { readonly kind: 'weighed'; readonly minute: Minute; readonly massRatio: number; readonly errorRatio: number }

export type RunStateRequest = {
  readonly part: PartClass
  /** Covers since the cut, the first beginning at the cut. */
  readonly spans: readonly CoverSpan[]
  readonly observations: readonly Observation[]
  readonly airOfSpot: AirOfSpot
  readonly draws: readonly Draw[]
  readonly nowMin: Minute
}

/**
 * Where a part of a run under way is now, in each draw: the full model through its history, brought to what was felt
 * and weighed. A draw that disagrees with the hand is moved just inside what the hand said; a weighing moves every draw
 * to itself, give or take the scale. What the air and covers do afterwards stays as uncertain as the draws.
 * @returns one state per draw, at `nowMin` (or at the cut, if that lies ahead)
 */
export function runStates(request: RunStateRequest): PartState[] {
  const { spans, nowMin } = request
  const cutMin = spans[0]?.fromMin ?? nowMin
  const observations = request.observations
    .filter(({ minute }) => minute >= cutMin && minute <= nowMin)
    .toSorted((a, b) => a.minute - b.minute)
  return request.draws.map((draw) => {
    let state: PartState | undefined
    for (const observation of observations) {
      const before = carry(request, draw, observation.minute, state)
      state = brought(before, observation, draw)
    }
    return carry(request, draw, Math.max(nowMin, cutMin), state)
  })
}

function carry(
  { part, spans, airOfSpot }: RunStateRequest,
  draw: Draw,
  toMin: Minute,
  start: PartState | undefined,
): PartState {
  if (start && start.minute >= toMin) return start
  return trajectory({ part, spans, airOfSpot, draw, toMin, ...(start && { start }) }).end
}

/** The state moved to agree with an observation: all zones by as much as the middle's mean. */
function brought(state: PartState, observation: Observation, draw: Draw): PartState {
  const meanDb = meanOf(state.middle)
  const wantedDb =
    observation.kind === 'weighed'
      ? weighedDb(observation.massRatio, observation.errorRatio, draw)
      : within(meanDb, feltBounds(observation.verdict, observation.band, draw))
  const shiftDb = wantedDb - meanDb
  if (shiftDb === 0) return state
  const moved = (zone: ZoneState): ZoneState => ({
    ...zone,
    cellsDb: zone.cellsDb.map((db) => Math.min(draw.startMoistureDb, Math.max(0.001, db + shiftDb))),
  })
  return {
    minute: state.minute,
    middle: moved(state.middle),
    ...(state.rim && { rim: moved(state.rim) }),
    ...(state.thickest && { thickest: moved(state.thickest) }),
  }
}

/** Water is the only thing that leaves: (1 + X) falls as the mass does. Each draw reads the scale with its own error. */
function weighedDb(massRatio: number, errorRatio: number, draw: Draw): number {
  const score = seededRng(draw.outlook.seed ^ 0x5ca1e).normal()
  const ratio = massRatio + errorRatio * score
  return Math.min(draw.startMoistureDb, Math.max(0.001, (1 + draw.startMoistureDb) * ratio - 1))
}

type Bounds = { readonly low: number; readonly high: number }

function feltBounds(verdict: FeltVerdict, band: StepBand, draw: Draw): Bounds {
  const { openAtDb, closeAtDb } = moistureBandOf(band, draw)
  const chalkyDb = moistureBandOf({ from: 'chalky', to: 'bone dry' }, draw)
  switch (verdict) {
    case 'too soft':
      return { low: openAtDb, high: draw.startMoistureDb }
    case 'just right':
      return { low: closeAtDb, high: openAtDb }
    case 'too dry':
      return { low: chalkyDb.closeAtDb, high: closeAtDb }
    case 'chalky':
      return { low: chalkyDb.closeAtDb, high: chalkyDb.openAtDb }
    case 'dry':
      return { low: 0, high: chalkyDb.closeAtDb }
  }
}

/** Into the bounds; a value outside goes a quarter of the way in, since the hand rarely meets the very edge. */
function within(value: number, { low, high }: Bounds): number {
  const inward = Number.isFinite(high - low) ? Math.max(0, high - low) / 4 : 0
  if (value > high) return high - inward
  if (value < low) return low + inward
  return value
}

const meanOf = ({ cellsDb }: ZoneState): number => cellsDb.reduce((sum, db, i) => sum + db * cellShare(i), 0)
