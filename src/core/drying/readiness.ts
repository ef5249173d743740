import type { Minute } from '../time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '../units.ts'
import { trajectory } from './fullModel.ts'
import { boneDryDb, DRY_AIR_RH } from './isotherm.ts'
import type { AirOfSpot, CoverSpan, Draw, PartClass, PartState } from './types.ts'

/** Longest step when only the day of dryness is wanted. */
const STEP_MIN = 60

export type ReadinessRequest = {
  /** The part that dries last; its thickest spot decides. */
  readonly part: PartClass
  readonly spans: readonly CoverSpan[]
  readonly airOfSpot: AirOfSpot
  readonly draws: readonly Draw[]
  readonly horizonMin: number
  /** For ware under way: [draw], all at the moment the first span begins. */
  readonly starts?: readonly PartState[]
}

/** When ware is dry at its thickest spot, draw by draw, in rising order; Infinity beyond the horizon. */
export type Readiness = { readonly dryMin: readonly number[] }

/**
 * When ware is bone dry in its wettest cell. Judged against the air of the last day, but never against air damper than
 * 50 %, so that no damp night makes ware "dry".
 */
export function readyForBisque(request: ReadinessRequest): Readiness {
  const dryMin = request.draws.map((draw, d) => dryMinuteOf(request, draw, request.starts?.[d]))
  return { dryMin: dryMin.toSorted((a, b) => a - b) }
}

/** Odds, 0 to 1, that ware is dry by a minute. */
export function oddsDryBy({ dryMin }: Readiness, minute: Minute): number {
  return dryMin.filter((dry) => dry <= minute).length / dryMin.length
}

/** Earliest whole minute at which ware is dry at these odds; Infinity if not within the horizon. */
export function earliestDryMin({ dryMin }: Readiness, odds: number): number {
  const needed = Math.max(1, Math.ceil(odds * dryMin.length - 1e-9))
  return Math.ceil(dryMin[needed - 1]!)
}

function dryMinuteOf(
  { part, spans, airOfSpot, horizonMin }: ReadinessRequest,
  draw: Draw,
  start: PartState | undefined,
): number {
  const toMin = (start?.minute ?? spans[0]!.fromMin) + horizonMin
  const driest = boneDryDb(draw.oswinA, draw.oswinB, 0)
  const drying = trajectory({
    part,
    spans,
    airOfSpot,
    draw,
    toMin,
    stepMin: STEP_MIN,
    untilDb: driest,
    ...(start && { start }),
  })
  const dryAirDb = boneDryDb(draw.oswinA, draw.oswinB)
  for (let i = 0; i < drying.minute.length; i++) {
    const minute = drying.minute[i]!
    if (drying.wettestDb[i]! > dryAirDb) continue
    const airDb = boneDryDb(draw.oswinA, draw.oswinB, meanRhBefore(minute, spans, airOfSpot, draw))
    if (drying.wettestDb[i]! > airDb) continue
    return minute
  }
  return Infinity
}

/** Mean humidity over the last day where ware stood; `DRY_AIR_RH` at most matters. */
function meanRhBefore(minute: Minute, spans: readonly CoverSpan[], airOfSpot: AirOfSpot, draw: Draw): number {
  const span = spans.findLast(({ fromMin }) => fromMin <= minute) ?? spans[0]!
  const airAt = airOfSpot(span.spotId, draw)
  let sum = 0
  for (let hour = 0; hour < 24; hour++) sum += airAt(minute - hour * MIN_PER_HOUR).rh
  return Math.min(DRY_AIR_RH, sum / (MIN_PER_DAY / MIN_PER_HOUR))
}
