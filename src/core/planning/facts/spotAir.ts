import type { AirOfSpot } from '#core/drying/types.ts'
import type { PlanningCase } from '../plan.ts'

export function airOfSpots({ studio }: PlanningCase): AirOfSpot {
  const speeds = new Map(studio.spots.map(({ id, airSpeedMS }) => [id, airSpeedMS]))
  return (spotId) => () => ({ tempC: 20, rh: 0.5, airSpeedMS: speeds.get(spotId) ?? 0.1 })
}
