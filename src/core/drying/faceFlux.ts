import { quickSaturationPa, quickSaturationSlopePaK } from '#core/air/saturationTable.ts'

/** What leaves through a face, and how it changes with the outermost cell's moisture and with temperature. */
export type FaceFlux = { kgM2S: number; perDb: number; perKelvin: number; surfaceDb: number }

/** Oswin's isotherm with the powers the inner loop needs. */
export type Sorption = { readonly A: number; readonly inverseB: number }

const CLOSED = 1e-30
const MOST_NEWTON_STEPS = 30

/**
 * Flux through a face in balance with what the outermost half cell can bring: 2 K (X - x) = g (a(x) p_sat(T) - p). The
 * surface moisture x is kept in `flux` as the next guess. All fields of `flux` are set.
 * @param conductance K of the outermost cell, kg/(m2 s)
 * @param g coefficient of the face, kg/(m2 s Pa); 0 closes it
 */
export function solveFace(
  flux: FaceFlux,
  cellDb: number,
  conductance: number,
  g: number,
  tempC: number,
  vapourPressurePa: number,
  { A, inverseB }: Sorption,
): void {
  if (g < CLOSED) {
    flux.kgM2S = flux.perDb = flux.perKelvin = 0
    flux.surfaceDb = cellDb
    return
  }
  const saturationPa = quickSaturationPa(tempC)
  const bring = 2 * conductance
  // The balance falls as x rises: positive at 0, negative at the wetter of the cell and the moisture the air holds.
  let low = 0
  let high = Infinity
  let x = flux.surfaceDb
  let activity = 0
  let slope = 0
  for (let step = 0; step < MOST_NEWTON_STEPS; step++) {
    const ratio = (A / x) ** inverseB
    activity = 1 / (1 + ratio)
    slope = (inverseB * ratio * activity * activity) / x
    const surplus = bring * (cellDb - x) - g * (activity * saturationPa - vapourPressurePa)
    if (surplus > 0) low = x
    else high = x
    const change = surplus / (bring + g * slope * saturationPa)
    if (Math.abs(change) < 1e-9 + 1e-7 * x) break
    const next = x + change
    x = next > low && next < high ? next : high === Infinity ? x * 2 : (low + high) / 2
  }
  const yielding = g * slope * saturationPa
  const share = bring / (bring + yielding)
  flux.surfaceDb = x
  flux.kgM2S = g * (activity * saturationPa - vapourPressurePa)
  flux.perDb = share * yielding
  flux.perKelvin = share * g * activity * quickSaturationSlopePaK(tempC)
}
