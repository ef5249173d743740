import { ROWS_PER_DB, rowOf } from './clayTable.ts'
import { quickSaturationPa, quickSaturationSlopePaK } from '#core/air/saturationTable.ts'

/** What leaves through a face, and how it changes with the outermost cell's moisture and with temperature. */
export type FaceFlux = { kgM2S: number; perDb: number; perKelvin: number; surfaceDb: number }

const CLOSED = 1e-30
/** Newton's steps may creep along a bend: from then on the rows left are halved. */
const MOST_NEWTON_STEPS = 5

/**
 * Flux through a face in balance with what the outermost half cell can bring: 2 K (X - x) = g (a(x) p_sat(T) - p). The
 * surface moisture x is kept in `flux` as the next guess. All fields of `flux` are set.
 * @param conductance K of the outermost cell, kg/(m2 s)
 * @param activities the clay's activity by moisture
 * @param g coefficient of the face, kg/(m2 s Pa); 0 closes it
 */
export function solveFace(
  flux: FaceFlux,
  cellDb: number,
  conductance: number,
  g: number,
  tempC: number,
  vapourPressurePa: number,
  activities: Float64Array,
): void {
  if (g < CLOSED) {
    flux.kgM2S = flux.perDb = flux.perKelvin = 0
    flux.surfaceDb = cellDb
    return
  }
  const saturationPa = quickSaturationPa(tempC)
  const bring = 2 * conductance
  const bringWhole = bring * cellDb + g * vapourPressurePa
  // Within a row of the table the balance is a straight line, so its zero is either here or in a row to one side.
  let row = rowOf(flux.surfaceDb)
  let low = 0
  let high = activities.length - 2
  let x = 0
  let slope = 0
  for (let step = 0; ; step++) {
    const activity = activities[row]!
    slope = (activities[row + 1]! - activity) * ROWS_PER_DB
    const start = row / ROWS_PER_DB
    x = (bringWhole - g * saturationPa * (activity - slope * start)) / (bring + g * saturationPa * slope)
    const wanted = rowOf(x)
    if (wanted === row) break
    if (wanted > row) low = row + 1
    else high = row - 1
    // On the border of two rows both may point at the other: either will do.
    if (low > high) break
    row = step > MOST_NEWTON_STEPS || wanted < low || wanted > high ? (low + high) >> 1 : wanted
  }
  const activity = activities[row]! + slope * (x - row / ROWS_PER_DB)
  const yielding = g * slope * saturationPa
  const share = bring / (bring + yielding)
  flux.surfaceDb = x
  flux.kgM2S = g * (activity * saturationPa - vapourPressurePa)
  flux.perDb = share * yielding
  flux.perKelvin = share * g * activity * quickSaturationSlopePaK(tempC)
}
