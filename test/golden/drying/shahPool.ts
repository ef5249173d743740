/**
 * Evaporation from still pools in still air, kg/(m2 h), and the difference of air density between room and surface,
 * kg dry air per m3. Source: table of unoccupied pools after M. M. Shah, ASHRAE Trans. 120 (2014), SE-14-001:
 * E = 35 rho_w (rho_r - rho_w)^(1/3) (W_w - W_r).
 */
export const shahPool: readonly {
  readonly waterC: number
  readonly airC: number
  readonly rh: number
  readonly kgM2H: number
  readonly densityDifference: number
}[] = [
  { waterC: 28, airC: 28, rh: 0.5, kgM2H: 0.136, densityDifference: 0.0219 },
  { waterC: 28, airC: 29, rh: 0.5, kgM2H: 0.1171, densityDifference: 0.0168 },
  { waterC: 28, airC: 30, rh: 0.5, kgM2H: 0.0968, densityDifference: 0.0116 },
  { waterC: 29, airC: 28, rh: 0.5, kgM2H: 0.1651, densityDifference: 0.0282 },
  { waterC: 29, airC: 29, rh: 0.5, kgM2H: 0.1463, densityDifference: 0.0231 },
  { waterC: 29, airC: 30, rh: 0.5, kgM2H: 0.1268, densityDifference: 0.018 },
  { waterC: 30, airC: 28, rh: 0.5, kgM2H: 0.1959, densityDifference: 0.0347 },
  { waterC: 30, airC: 29, rh: 0.5, kgM2H: 0.1771, densityDifference: 0.0295 },
  { waterC: 30, airC: 30, rh: 0.5, kgM2H: 0.1575, densityDifference: 0.0244 },
]
