/** Equilibrium of clay with air: how much water stays in it, and how damp the air over it is. */

/**
 * Moisture in equilibrium with air, dry basis. @param rh 0 up to, not including, 1
 * @see Oswin (1946): X = A (a / (1 - a))^B
 */
export const oswinMoistureDb = (rh: number, A: number, B: number): number => A * (rh / (1 - rh)) ** B

/** Relative humidity over clay of a moisture (its water activity), 0 to 1: Oswin's isotherm inverted. */
export const waterActivity = (moistureDb: number, A: number, B: number): number =>
  1 / (1 + (A / Math.max(moistureDb, 1e-9)) ** (1 / B))

/** Slope of `waterActivity`, per unit of moisture. */
export function waterActivitySlope(moistureDb: number, A: number, B: number): number {
  const safeDb = Math.max(moistureDb, 1e-9)
  const ratio = (A / safeDb) ** (1 / B)
  return Number.isFinite(ratio) ? ratio / (B * safeDb * (1 + ratio) ** 2) : 0
}

export type Gab = { readonly monolayerDb: number; readonly C: number; readonly K: number }

/**
 * Moisture in equilibrium with air, dry basis, for showing: it follows measured isotherms more closely than Oswin's.
 * @see Guggenheim-Anderson-de Boer, in van den Berg & Bruin (1981)
 */
export function gabMoistureDb(rh: number, { monolayerDb, C, K }: Gab): number {
  return (monolayerDb * C * K * rh) / ((1 - K * rh) * (1 - K * rh + C * K * rh))
}

/** Drying branch of an unfired clay brick at 23 to 25 °C. @see M. Haerder, isotherm of brick NF; fit rmse 0.0005 */
export const BRICK_GAB: Gab = { monolayerDb: 0.0149, C: 5.05, K: 0.7113 }

/** Dampest air in which ware counts as dry: ware is judged as if the air were no damper than this. */
export const DRY_AIR_RH = 0.5
/** How far above equilibrium ware may be and still be called bone dry (trade has no number; assumption). */
const BONE_DRY_MARGIN_DB = 0.005

/** Moisture at which ware is bone dry; never judged against air damper than 50 %, else a damp night would "dry" it. */
export function boneDryDb(A: number, B: number, rh = DRY_AIR_RH): number {
  return oswinMoistureDb(Math.min(rh, DRY_AIR_RH), A, B) + BONE_DRY_MARGIN_DB
}
