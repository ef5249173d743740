import { quickSaturationPa } from './saturationTable.ts'
import { humidityRatioOf, vapourPressureOf } from './psychrometrics.ts'
import type { AirReading } from './types.ts'

/** A room is never colder than this much above the air outside: people, lamps, walls. Assumption. */
const ROOM_ABOVE_OUTSIDE_K = 1
/** Damper than this, walls and ware take up what comes in. Assumption. */
const DAMPEST_ROOM_RH = 0.95

/**
 * Air of a room that is aired from outside: the humidity ratio stays, the temperature becomes that of the room. Outdoor
 * humidity counts against water at any frost, as weather stations report it.
 * @param outdoor humidity above 1 counts as 1
 * @param setPointC what the heating keeps
 */
export function indoorFromOutdoor(outdoor: { readonly tempC: number; readonly rh: number }, setPointC: number) {
  const outdoorPa = Math.min(1, Math.max(0, outdoor.rh)) * quickSaturationPa(outdoor.tempC)
  const tempC = Math.max(setPointC, outdoor.tempC + ROOM_ABOVE_OUTSIDE_K)
  const vapourPa = vapourPressureOf(humidityRatioOf(outdoorPa))
  return { tempC, rh: Math.min(DAMPEST_ROOM_RH, vapourPa / quickSaturationPa(tempC)) }
}

/** A log or forecast of the weather outside as one of the room. */
export const indoorReadings = (outdoor: readonly AirReading[], setPointC: number): AirReading[] =>
  outdoor.map((reading) => ({ minute: reading.minute, ...indoorFromOutdoor(reading, setPointC) }))
