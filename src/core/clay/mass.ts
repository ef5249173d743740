import { specificVolumeM3Kg } from '#core/drying/clay.ts'
import type { Size } from './types.ts'

/** Moisture on a dry basis from one on the wet basis: 20 % of the wet mass is 0.25. @param ratio 0 up to, not including, 1 */
export const moistureDbFromWetBasis = (ratio: number): number => ratio / (1 - ratio)

/** Dry clay in plastic clay of this moisture. */
export const dryMassKg = (plasticKg: number, moistureDb: number): number => plasticKg / (1 + moistureDb)

/**
 * Density of plastic clay and its water, no air.
 * @returns kg/m³; 1.95-2.0 t for bagged clay. Grog and air in the pug change it by a few parts in a hundred.
 */
export const plasticDensityKgM3 = (moistureDb: number): number => (1 + moistureDb) / specificVolumeM3Kg(moistureDb, 0)

/** One part of a piece as cut from the slab: its blank, corners and cut-outs not taken off. */
export type CutPart = { readonly countPerPiece: number; readonly wet: Size }

/** Mass of one piece. `dryKg` is what the kiln has to heat and the bisque to drive water out of. */
export type PieceMass = { readonly plasticKg: number; readonly dryKg: number }

/**
 * Clay in one piece, from its parts as cut.
 * @param moistureDb of the clay as cut, dry basis
 * @param filledRatio share of the blanks' boxes that stays in the piece (a disc 0.785, a frame less)
 */
export function pieceMass(parts: readonly CutPart[], moistureDb: number, filledRatio = 1): PieceMass {
  const volumeMm3 = parts.reduce(
    (sum, { countPerPiece, wet }) => sum + countPerPiece * wet.lengthMm * wet.widthMm * wet.thicknessMm,
    0,
  )
  const plasticKg = (volumeMm3 * filledRatio * plasticDensityKgM3(moistureDb)) / MM3_PER_M3
  return { plasticKg, dryKg: dryMassKg(plasticKg, moistureDb) }
}

const MM3_PER_M3 = 1e9
