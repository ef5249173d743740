import { kelvinOf } from '../units.ts'

/** Standard pressure at sea level, Pa. @see ISO 2533 */
export const SEA_LEVEL_PA = 101_325
/** Ratio of the molar masses of water and dry air. @see ASHRAE Fundamentals (2017) ch. 1 eq. 20 */
const WATER_TO_AIR_MASS_RATIO = 0.621945
/** Triple point of water, °C: below it the saturation pressure is that over ice. */
const TRIPLE_POINT_C = 0.01

/**
 * Saturation vapour pressure, over ice below the triple point and over water above.
 * @param tempC -100 to 200
 * @returns Pa, within 300 ppm of the published table
 * @throws RangeError outside the range
 * @see Hyland & Wexler (1983), as ASHRAE Fundamentals (2017) ch. 1 eq. 5 and 6
 */
export function saturationPressurePa(tempC: number): number {
  if (!(tempC >= -100 && tempC <= 200)) throw new RangeError(`saturation pressure asked at ${tempC} °C`)
  return tempC <= TRIPLE_POINT_C ? pressureOverIcePa(kelvinOf(tempC)) : pressureOverWaterPa(kelvinOf(tempC))
}

/**
 * Saturation pressure over liquid water, also over supercooled water: weather stations give humidity against water
 * at every temperature (WMO-No. 8, annex 4.B), so outdoor frost needs this one.
 * @param tempC -60 to 200
 */
export const saturationOverWaterPa = (tempC: number): number => pressureOverWaterPa(kelvinOf(tempC))

/** Slope of the saturation pressure over water, Pa/K (Clausius and Clapeyron's form of the same equation). */
export function saturationSlopePaK(tempC: number): number {
  const K = kelvinOf(tempC)
  const logSlope =
    5.8002206e3 / (K * K) - 4.8640239e-2 + 2 * 4.1764768e-5 * K - 3 * 1.4452093e-8 * K * K + 6.5459673 / K
  return pressureOverWaterPa(K) * logSlope
}

/** kg of water per kg of dry air. `pressurePa` is the air's total pressure. @see ASHRAE (2017) ch. 1 eq. 20 */
export function humidityRatio(tempC: number, rh: number, pressurePa = SEA_LEVEL_PA): number {
  return humidityRatioOf(rh * saturationPressurePa(tempC), pressurePa)
}

/** kg of water per kg of dry air at a vapour pressure, which must lie below the total pressure. */
export function humidityRatioOf(vapourPressurePa: number, pressurePa = SEA_LEVEL_PA): number {
  if (!(vapourPressurePa < pressurePa)) throw new RangeError('vapour pressure reaches the total pressure')
  return (WATER_TO_AIR_MASS_RATIO * vapourPressurePa) / (pressurePa - vapourPressurePa)
}

/** Vapour pressure, Pa, of air with a humidity ratio; the inverse of `humidityRatioOf`. */
export const vapourPressureOf = (ratio: number, pressurePa = SEA_LEVEL_PA): number =>
  (pressurePa * ratio) / (WATER_TO_AIR_MASS_RATIO + ratio)

/**
 * Humidity ratio of air at `tempC` whose psychrometer shows `wetBulbC`.
 * @see ASHRAE Fundamentals (2017) ch. 1 eq. 33 (over water) and 35 (over ice)
 */
export function humidityRatioFromWetBulb(tempC: number, wetBulbC: number, pressurePa = SEA_LEVEL_PA): number {
  const saturated = humidityRatioOf(saturationPressurePa(wetBulbC), pressurePa)
  return wetBulbC >= 0
    ? ((2501 - 2.326 * wetBulbC) * saturated - 1.006 * (tempC - wetBulbC)) / (2501 + 1.86 * tempC - 4.186 * wetBulbC)
    : ((2830 - 0.24 * wetBulbC) * saturated - 1.006 * (tempC - wetBulbC)) / (2830 + 1.86 * tempC - 2.1 * wetBulbC)
}

/** Temperature at which this air would begin to drip, °C; within 1e-6 K of the inverse. `rh` above 0, at most 1. */
export function dewPointC(tempC: number, rh: number): number {
  if (!(rh > 0 && rh <= 1)) throw new RangeError(`dew point asked at humidity ${rh}`)
  const vapourPressurePa = rh * saturationPressurePa(tempC)
  return bisected(-100, tempC, (dewC) => saturationPressurePa(dewC) - vapourPressurePa)
}

/** Temperature a wetted thermometer shows in moving air, °C; within 1e-6 K of ASHRAE's equation. `rh` 0 to 1. */
export function wetBulbC(tempC: number, rh: number, pressurePa = SEA_LEVEL_PA): number {
  const ratio = humidityRatio(tempC, rh, pressurePa)
  const coldest = rh > 0 ? dewPointC(tempC, rh) : -100
  return bisected(coldest, tempC, (guessC) => humidityRatioFromWetBulb(tempC, guessC, pressurePa) - ratio)
}

function pressureOverWaterPa(K: number): number {
  const polynomial = 1.3914993 - 4.8640239e-2 * K + 4.1764768e-5 * K * K - 1.4452093e-8 * K * K * K
  return Math.exp(-5.8002206e3 / K + polynomial + 6.5459673 * Math.log(K))
}

function pressureOverIcePa(K: number): number {
  const polynomial = 6.3925247 - 9.677843e-3 * K + 6.2215701e-7 * K * K + 2.0747825e-9 * K ** 3 - 9.484024e-13 * K ** 4
  return Math.exp(-5.6745359e3 / K + polynomial + 4.1635019 * Math.log(K))
}

/** Zero of a rising function between two bounds. */
function bisected(low: number, high: number, rising: (x: number) => number): number {
  while (high - low > 1e-7) {
    const middle = (low + high) / 2
    if (rising(middle) < 0) low = middle
    else high = middle
  }
  return (low + high) / 2
}
