import { specificVolumeM3Kg } from './clay.ts'
import { waterActivity, waterActivitySlope } from './isotherm.ts'
import type { Draw } from './types.ts'

/**
 * A draw's clay as tables over moisture, so that the inner loop looks up instead of raising powers. Row i holds moisture
 * i / ROWS_PER_DB; between rows values change evenly (error below 1e-4 of the value where ware dries).
 */
export type ClayTable = {
  /** Liquid diffusivity over specific volume squared, kg2/(m4 s), at 20 °C. */
  readonly liquid: Float64Array
  /** Vapour permeability times activity slope over specific volume, to be multiplied by the saturation pressure. */
  readonly vapour: Float64Array
  /** Length relative to the length as cut. */
  readonly length: Float64Array
  /** Relative humidity over the clay. */
  readonly activity: Float64Array
  /** Integral of `liquid` from dry up: what a gradient of moisture through the clay can carry. */
  readonly carried: Float64Array
  /** The same of `vapour`. */
  readonly carriedAsVapour: Float64Array
  /** Integral of 1 / length^2 from dry up: what a wet face has to give off per dry mass, as its area shrinks. */
  readonly toGiveOff: Float64Array
  readonly specificVolumeAsCut: number
}

export const ROWS_PER_DB = 1600
const WETTEST_DB = 0.64
const ROW_COUNT = ROWS_PER_DB * WETTEST_DB + 2

/** The tables of a draw; made once per draw and kept as long as the draw is. */
export function clayTableOf(draw: Draw): ClayTable {
  const known = tables.get(draw)
  if (known) return known
  const made = makeTable(draw)
  tables.set(draw, made)
  return made
}

const tables = new WeakMap<Draw, ClayTable>()

function makeTable(draw: Draw): ClayTable {
  const liquid = new Float64Array(ROW_COUNT)
  const vapour = new Float64Array(ROW_COUNT)
  const length = new Float64Array(ROW_COUNT)
  const toGiveOff = new Float64Array(ROW_COUNT)
  const carried = new Float64Array(ROW_COUNT)
  const carriedAsVapour = new Float64Array(ROW_COUNT)
  const activity = new Float64Array(ROW_COUNT)
  const specificVolumeAsCut = specificVolumeM3Kg(draw.startMoistureDb, draw.endOfShrinkageDb)
  for (let row = 0; row < ROW_COUNT; row++) {
    const moistureDb = row / ROWS_PER_DB
    const volume = specificVolumeM3Kg(moistureDb, draw.endOfShrinkageDb)
    const dryness = Math.min(1, Math.max(0, 1 - moistureDb / draw.bodyMoistureDb))
    liquid[row] = (draw.wetDiffusivityM2S * Math.exp(-draw.diffusivityFall * dryness)) / volume ** 2
    vapour[row] = (draw.vapourPermeability * waterActivitySlope(moistureDb, draw.oswinA, draw.oswinB)) / volume
    length[row] = Math.cbrt(volume / specificVolumeAsCut)
    activity[row] = row === 0 ? 0 : waterActivity(moistureDb, draw.oswinA, draw.oswinB)
    if (row > 0)
      carriedAsVapour[row] = carriedAsVapour[row - 1]! + (vapour[row]! + vapour[row - 1]!) / (2 * ROWS_PER_DB)
    if (row > 0) carried[row] = carried[row - 1]! + (liquid[row]! + liquid[row - 1]!) / (2 * ROWS_PER_DB)
    if (row > 0) toGiveOff[row] = toGiveOff[row - 1]! + 1 / (length[row]! * length[row - 1]! * ROWS_PER_DB)
  }
  return { liquid, vapour, length, activity, carried, carriedAsVapour, toGiveOff, specificVolumeAsCut }
}

/** The row at or below a moisture. */
export const rowOf = (moistureDb: number): number => (Math.min(WETTEST_DB, Math.max(0, moistureDb)) * ROWS_PER_DB) | 0

/** A table's value at a moisture; the wettest row's beyond. */
export function lookUp(table: Float64Array, moistureDb: number): number {
  const place = Math.min(moistureDb, WETTEST_DB) * ROWS_PER_DB
  const row = place | 0
  const below = table[row]!
  return below + (place - row) * (table[row + 1]! - below)
}
