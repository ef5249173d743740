import { S_PER_HOUR } from '#core/units.ts'
import type { FiringLoad, KilnFiring } from './types.ts'

/**
 * Mean specific heat of clay and furniture from room to top temperature.
 * @see dehydroxylated kaolin 1128 + 0.102 T - 36e6 / T² J/kg/K (Clay Minerals 2011, abstract): mean 1111 to 1000 °C, 1137
 * to 1222 °C; rounded to two figures. Cordierite shelves 0.9-1.1, from memory.
 */
export const CERAMIC_KJ_PER_KG_K = 1.1
/** Insulating firebrick. From memory of a maker's sheet. */
export const BRICK_KJ_PER_KG_K = 1.05
/** Share of the brick's heat taken up when the hot face is at the load's temperature: near half, the outside stays cool. */
export const BRICK_HEATED_RATIO = 0.55
/** Water from 20 to 100 °C (4.186 kJ/kg/K) and evaporated (2257 kJ/kg). */
export const STEAM_KJ_PER_KG = 4.186 * 80 + 2257
/** Heat that kaolinite takes to lose its water; 500-1050 in print. From memory (145 cal/g). */
export const DEHYDROXYLATION_KJ_PER_KG = 600
/** Structural water of kaolinite Al2Si2O5(OH)4, share of its mass: 2 H2O in 258.16 g/mol. */
export const KAOLINITE_WATER_RATIO = (2 * 18.0153) / 258.1604

/** Where steam and structural water leave: heat taken there is spread over the band. */
export const STEAM_BAND = { lowC: 20, highC: 100 } as const
export const DEHYDROXYLATION_BAND = { lowC: 450, highC: 600 } as const

/** Heat to warm kiln and load by one kelvin at this temperature, with what water and kaolinite take there. */
export function heatCapacityKjPerK(tempC: number, kiln: KilnFiring, load: FiringLoad): number {
  const solid = (load.wareKg + load.furnitureKg) * CERAMIC_KJ_PER_KG_K + brickKjPerK(kiln)
  const steam = isWithin(STEAM_BAND, tempC) ? (load.waterKg * STEAM_KJ_PER_KG) / widthOf(STEAM_BAND) : 0
  const dehydroxylation = isWithin(DEHYDROXYLATION_BAND, tempC)
    ? (load.wareKg * load.kaoliniteRatio * DEHYDROXYLATION_KJ_PER_KG) / widthOf(DEHYDROXYLATION_BAND)
    : 0
  return solid + steam + dehydroxylation
}

export const brickKjPerK = (kiln: KilnFiring): number => kiln.brickKg * BRICK_HEATED_RATIO * BRICK_KJ_PER_KG_K

/** Loss through the walls at a steady temperature. */
export const wallLossKw = (tempC: number, kiln: KilnFiring): number =>
  (kiln.wallLossWPerK * (tempC - kiln.ambientC)) / 1000

/** How fast full power heats kiln and load at this temperature; 0 or less where it only holds, or not even that. */
export function fastestCPerH(tempC: number, kiln: KilnFiring, load: FiringLoad): number {
  const spareKw = kiln.powerKw / kiln.lossFactor - wallLossKw(tempC, kiln)
  return (spareKw * S_PER_HOUR) / heatCapacityKjPerK(tempC, kiln, load)
}

type Band = { readonly lowC: number; readonly highC: number }
const isWithin = (band: Band, tempC: number): boolean => tempC >= band.lowC && tempC < band.highC
const widthOf = (band: Band): number => band.highC - band.lowC
