/** What the model needs to know of water, and of the heat in ware. */

/** Heat kept by clay and by the board's skin. From memory: clay 840 J/(kg K), water 4186, board 2 kJ/(m2 K). */
const CLAY_HEAT = 840
const WATER_HEAT = 4186
const BOARD_HEAT = 2000

/** Heat kept by clay, its water and the board's skin, J/(m2 K). */
export const heatCapacityOf = (dryMassKgM2: number, moistureDb: number): number =>
  dryMassKgM2 * (CLAY_HEAT + WATER_HEAT * moistureDb) + BOARD_HEAT

/** Latent heat of water, J/kg. @see ASHRAE Fundamentals (2017) ch. 1, enthalpy of vapour less that of water */
export const latentHeat = (tempC: number): number => 2.501e6 - 2361 * tempC
/**
 * How much easier liquid water moves than at 20 °C: T over viscosity, -30 to 70 °C, by table every half kelvin.
 * @see Vogel's equation for water, Reid et al. (1987)
 */
export function waterMobility(tempC: number): number {
  const place = (Math.min(MOBILITY_WARMEST_C, Math.max(MOBILITY_COLDEST_C, tempC)) - MOBILITY_COLDEST_C) * 2
  const row = place | 0
  const below = mobilities[row]!
  return below + (place - row) * (mobilities[row + 1]! - below)
}

const MOBILITY_COLDEST_C = -30
const MOBILITY_WARMEST_C = 70
const mobilities = Float64Array.from({ length: 2 * (MOBILITY_WARMEST_C - MOBILITY_COLDEST_C) + 2 }, (_, row) => {
  const tempC = MOBILITY_COLDEST_C + row / 2
  return ((tempC + 273.15) / 293.15) * 10 ** (247.8 / 153.15 - 247.8 / (tempC + 133.15))
})
