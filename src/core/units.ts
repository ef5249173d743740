/**
 * Conversions, and the few constants that several rooms share. Everything inside is in the unit its name says
 * (mm, °C, K only inside formulas, integer minutes); these are used once, at the edge.
 */

/** 0 °C in kelvin. @see ISO 80000-5 */
export const ZERO_C_IN_K = 273.15
/** One inch in millimetres, exact by definition. */
export const MM_PER_INCH = 25.4
/** One avoirdupois pound in kilograms, exact by definition. */
export const KG_PER_POUND = 0.45359237
export const MIN_PER_HOUR = 60
export const MIN_PER_DAY = 1_440
export const S_PER_HOUR = 3_600

export const kelvinOf = (tempC: number): number => tempC + ZERO_C_IN_K
export const celsiusFromFahrenheit = (tempF: number): number => ((tempF - 32) * 5) / 9
export const fahrenheitFromCelsius = (tempC: number): number => (tempC * 9) / 5 + 32
export const inchesFromMm = (lengthMm: number): number => lengthMm / MM_PER_INCH
