import { SEA_LEVEL_PA } from '#core/air/psychrometrics.ts'
import { kelvinOf } from '../units.ts'

/** Gas constant of water vapour, J/(kg K). @see IAPWS R6-95 */
export const VAPOUR_GAS_CONSTANT = 461.5
const GRAVITY = 9.81

/** Properties of air near room temperature at sea level, for film temperatures of 0 to 60 °C. */
export type AirProperties = {
  readonly conductivityWMK: number
  readonly viscosityM2S: number
  readonly prandtl: number
  readonly densityKgM3: number
  readonly vapourDiffusivityM2S: number
}

/**
 * Air's properties by power laws through handbook values at 20 °C.
 * @returns within 1 % of tables between 0 and 60 °C
 * @see Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table A.4; vapour: Massman (1998), Atmos. Environ. 32
 */
export function airProperties(filmTempC: number): AirProperties {
  const K = kelvinOf(filmTempC)
  const warmth = K / 293.15
  return {
    conductivityWMK: 0.0257 * warmth ** 0.86,
    viscosityM2S: 1.516e-5 * warmth ** 1.75,
    prandtl: 0.709,
    densityKgM3: SEA_LEVEL_PA / (287.05 * K),
    vapourDiffusivityM2S: 2.178e-5 * (K / 273.15) ** 1.81,
  }
}

/** Heat transfer of a laminar stream along a plate, W/(m2 K), mean over its length: Nu = 0.664 Re^(1/2) Pr^(1/3). */
export function forcedHeatTransfer(airSpeedMS: number, lengthM: number, air: AirProperties): number {
  const reynolds = (airSpeedMS * lengthM) / air.viscosityM2S
  return (0.664 * Math.sqrt(reynolds) * Math.cbrt(air.prandtl) * air.conductivityWMK) / lengthM
}

/**
 * Heat transfer by buoyancy over a level plate, W/(m2 K).
 * @param densityDifference (surface film - room) / room; positive where the film is heavier and lies still on the plate
 * @param lengthM face area over perimeter
 * @see Lloyd & Moran (1974): 0.54 Ra^(1/4), 0.15 Ra^(1/3); McAdams (1954): 0.27 Ra^(1/4) for a heavy film
 */
export function naturalHeatTransfer(densityDifference: number, lengthM: number, air: AirProperties): number {
  const grashof = (GRAVITY * Math.abs(densityDifference) * lengthM ** 3) / air.viscosityM2S ** 2
  const rayleigh = grashof * air.prandtl
  const nusselt =
    densityDifference > 0
      ? 0.27 * rayleigh ** 0.25
      : rayleigh < 1e7
        ? 0.54 * rayleigh ** 0.25
        : 0.15 * Math.cbrt(rayleigh)
  return (nusselt * air.conductivityWMK) / lengthM
}

/** Forced and natural transfer act together. @see Churchill (1977), AIChE J. 23: third-power blend */
export const blended = (forced: number, natural: number): number => Math.cbrt(forced ** 3 + natural ** 3)

/**
 * Vapour transfer coefficient that belongs to a heat transfer coefficient, kg/(m2 s Pa).
 * @see Chilton & Colburn (1934); Lewis number to the power 2/3
 */
export function vapourTransfer(heatTransferWM2K: number, air: AirProperties, tempC: number): number {
  const thermalDiffusivity = air.viscosityM2S / air.prandtl
  const lewis = (thermalDiffusivity / air.vapourDiffusivityM2S) ** (2 / 3)
  const heatPerVolume = air.densityKgM3 * 1006
  return heatTransferWM2K / (heatPerVolume * lewis * VAPOUR_GAS_CONSTANT * kelvinOf(tempC))
}

export type Film = { readonly heatWM2K: number; readonly vapourKgM2SPa: number }

/**
 * Excess weight of the cool, damp film over wet clay that stands for a room's buoyancy. It is kept the same for wet
 * and dry ware: the room's own drift hides the difference, and drying stays the faster the drier the air.
 * The value gives 1.8e-8 kg/(m2 s Pa) over a 0.3 m plate at 20 °C and 0.1 m/s; published correlations bracket it.
 */
const NOMINAL_DENSITY_DIFFERENCE = 0.0165

/** The film of air over ware. @param lengthM side of the ware along the stream */
export function filmOver(tempC: number, airSpeedMS: number, lengthM: number): Film {
  const air = airProperties(tempC)
  const natural = naturalHeatTransfer(NOMINAL_DENSITY_DIFFERENCE, lengthM / 4, air)
  const heatWM2K = blended(forcedHeatTransfer(airSpeedMS, lengthM, air), natural)
  return { heatWM2K, vapourKgM2SPa: vapourTransfer(heatWM2K, air, tempC) }
}
