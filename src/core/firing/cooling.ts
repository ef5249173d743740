import { MIN_PER_HOUR } from '#core/units.ts'

/** A body that cools on its own: T = Ta + (T0 - Ta) exp(-t / tau). */
export type Cooling = { readonly ambientC: number; readonly tauH: number }

/** Temperature after cooling for a while. @param elapsedMin 0 or more */
export const cooledTempC = (fromC: number, elapsedMin: number, { ambientC, tauH }: Cooling): number =>
  ambientC + (fromC - ambientC) * Math.exp(-elapsedMin / (tauH * MIN_PER_HOUR))

/**
 * How long it takes to cool; not rounded.
 * @returns 0 when it is cool already; Infinity when the air is not cooler than `toC`
 */
export function coolingMin(fromC: number, toC: number, { ambientC, tauH }: Cooling): number {
  if (fromC <= toC) return 0
  if (toC <= ambientC) return Infinity
  return tauH * MIN_PER_HOUR * Math.log((fromC - ambientC) / (toC - ambientC))
}

export type CoolingReading = { readonly atMin: number; readonly tempC: number }

/**
 * The time constant that two readings of a cooling kiln give. Best when they are hours apart and both well above the
 * room: the error grows as 1 / (T - Ta).
 * @returns hours, or why the readings give none
 */
export function tauFromReadings(
  first: CoolingReading,
  second: CoolingReading,
  ambientC: number,
): { readonly tauH: number } | { readonly reason: 'same-moment' | 'not-cooling' | 'not-above-ambient' } {
  if (second.atMin < first.atMin) return tauFromReadings(second, first, ambientC)
  if (second.atMin === first.atMin) return { reason: 'same-moment' }
  if (second.tempC <= ambientC) return { reason: 'not-above-ambient' }
  if (second.tempC >= first.tempC) return { reason: 'not-cooling' }
  const elapsedH = (second.atMin - first.atMin) / MIN_PER_HOUR
  return { tauH: elapsedH / Math.log((first.tempC - ambientC) / (second.tempC - ambientC)) }
}
