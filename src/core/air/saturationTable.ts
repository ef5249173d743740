import { saturationOverWaterPa } from './psychrometrics.ts'

const COLDEST_C = -40
const WARMEST_C = 90
const ROWS_PER_K = 20

/**
 * Saturation pressure over water by table, for inner loops: Pa, within 2 ppm of `saturationOverWaterPa`.
 * @param tempC -40 to 90; beyond, the value at the nearer end
 */
export function quickSaturationPa(tempC: number): number {
  const place = placeOf(tempC)
  const row = place | 0
  const below = pressures[row]!
  return below + (place - row) * (pressures[row + 1]! - below)
}

/** Its slope, Pa/K, the same between two rows of the table. */
export function quickSaturationSlopePaK(tempC: number): number {
  const row = placeOf(tempC) | 0
  return (pressures[row + 1]! - pressures[row]!) * ROWS_PER_K
}

function placeOf(tempC: number): number {
  return (Math.min(WARMEST_C, Math.max(COLDEST_C, tempC)) - COLDEST_C) * ROWS_PER_K
}

const pressures = Float64Array.from({ length: (WARMEST_C - COLDEST_C) * ROWS_PER_K + 2 }, (_, row) =>
  saturationOverWaterPa(COLDEST_C + row / ROWS_PER_K),
)
