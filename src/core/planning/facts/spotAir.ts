/** The air that ware meets, spot by spot, in each draw: the log up to now, the outlook from now on. */
import { type SpotAirs, spotAirs } from '#core/air/spotAirs.ts'
import type { AirOfSpot } from '#core/drying/types.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { PlanningCase } from '../plan.ts'

/** How far back the log is laid out: runs under way were cut within it. */
const LOG_DAYS = 45
/** How far it is laid out beyond the plan; later, the last hour's air stays. */
const BEYOND_DAYS = 5

/** The same air for a plan and for its check. */
export function airOfSpots(planningCase: PlanningCase): AirOfSpot {
  const airs = airsOf(planningCase)
  return (spotId, draw) => airs.airOf(spotId, draw.outlook)
}

/** What a plan believes of the air of each spot. */
export const airsOf = ({ studio, input, horizonMin, dayOffsetMin }: PlanningCase): SpotAirs =>
  spotAirs({
    spots: studio.spots,
    readings: studio.airReadings,
    fromMin: input.nowMin - LOG_DAYS * MIN_PER_DAY,
    toMin: horizonMin + BEYOND_DAYS * MIN_PER_DAY,
    nowMin: input.nowMin,
    dayOffsetMin,
  })
