/** Lengths, masses, temperatures, money, odds and counts in people's units. */
import { fahrenheitFromCelsius, inchesFromMm, KG_PER_POUND } from '#core/units.ts'
import type { Units } from './context.ts'

/** Ruler inches are read to sixteenths. */
const SIXTEENTHS = 16

/** "240 mm", or inches with a fraction: "9 7/16 in". */
export function lengthText(lengthMm: number, units: Units): string {
  if (units === 'metric') return `${Math.round(lengthMm * 10) / 10} mm`
  const sixteenths = Math.round(inchesFromMm(lengthMm) * SIXTEENTHS)
  const whole = Math.floor(sixteenths / SIXTEENTHS)
  const rest = sixteenths % SIXTEENTHS
  if (rest === 0) return `${whole} in`
  const shared = [8, 4, 2, 1].find((divisor) => rest % divisor === 0)!
  const fraction = `${rest / shared}/${SIXTEENTHS / shared}`
  return whole === 0 ? `${fraction} in` : `${whole} ${fraction} in`
}

/** "1222 °C" or "2232 °F". */
export const temperatureText = (tempC: number, units: Units): string =>
  units === 'metric' ? `${Math.round(tempC)} °C` : `${Math.round(fahrenheitFromCelsius(tempC))} °F`

/** A difference of temperatures, by its number alone: "2" kelvins are "4" of Fahrenheit's degrees. */
export const deltaTemperatureText = (deltaK: number, units: Units): string =>
  String(Math.round(units === 'metric' ? deltaK : fahrenheitFromCelsius(deltaK) - fahrenheitFromCelsius(0)))

/** "12.5 kg" or "27.6 lb". */
export const massText = (massKg: number, units: Units): string =>
  units === 'metric' ? `${Math.round(massKg * 10) / 10} kg` : `${Math.round((massKg / KG_PER_POUND) * 10) / 10} lb`

/** "9 in 10"; near the ends "19 in 20" and "less than 1 in 10". Never a certainty. */
export function oddsText(odds: number): string {
  if (odds >= 0.975) return 'better than 19 in 20'
  if (odds >= 0.93) return '19 in 20'
  const tenths = Math.floor(odds * 10 + 1e-9)
  return tenths < 1 ? 'less than 1 in 10' : `${tenths} in 10`
}

/** "4 trays", "1 tray". English plurals of plain nouns; a name that ends in s, x, ch or sh takes es. */
export function countText(count: number, name: string): string {
  if (count === 1) return `1 ${name}`
  const ending = /(?:s|x|ch|sh)$/i.test(name) ? 'es' : 's'
  return `${count} ${name}${ending}`
}
