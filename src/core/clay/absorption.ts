/** Three weighings of a fired sample: dry, saturated by boiling, and saturated hanging in water. Grams. */
export type AbsorptionWeighings = { readonly dryG: number; readonly saturatedG: number; readonly suspendedG: number }

export type Absorption = {
  /** Water taken up, share of the dry mass. */
  readonly absorptionRatio: number
  readonly exteriorVolumeCm3: number
  /** Open pores, share of the exterior volume. */
  readonly porosityRatio: number
  readonly bulkDensityGCm3: number
  /** Of the part that water does not reach. */
  readonly apparentGravity: number
}

/**
 * Absorption of fired clay.
 * @returns the figures, or why the weighings cannot be right
 * @see ASTM C373: A = (M - D) / D, V = M - S, P = (M - D) / V, B = D / V, T = D / (D - S); water at 1 g/cm³
 */
export function absorptionOf({
  dryG,
  saturatedG,
  suspendedG,
}: AbsorptionWeighings):
  | Absorption
  | { readonly reason: 'not-positive' | 'saturated-below-dry' | 'suspended-not-below-dry' } {
  if (!(dryG > 0) || !(suspendedG > 0)) return { reason: 'not-positive' }
  if (saturatedG < dryG) return { reason: 'saturated-below-dry' }
  if (suspendedG >= dryG) return { reason: 'suspended-not-below-dry' }
  const exteriorVolumeCm3 = saturatedG - suspendedG
  return {
    absorptionRatio: (saturatedG - dryG) / dryG,
    exteriorVolumeCm3,
    porosityRatio: (saturatedG - dryG) / exteriorVolumeCm3,
    bulkDensityGCm3: dryG / exteriorVolumeCm3,
    apparentGravity: dryG / (dryG - suspendedG),
  }
}

/** From this absorption up, ware weeps and takes up water that heat or frost drives out. Common practice, no source. */
export const POROUS_RATIO = 0.03

export type AbsorptionNote = 'porous-for-the-oven' | 'porous-for-frost' | 'porous-for-liquids'

/** What a body's absorption means for a use; a note, no verdict: crazing, shape and glaze count as much. */
export function absorptionNote(absorptionRatio: number, use: 'oven' | 'outdoor' | 'table'): AbsorptionNote | undefined {
  if (absorptionRatio < POROUS_RATIO) return undefined
  return ({ oven: 'porous-for-the-oven', outdoor: 'porous-for-frost', table: 'porous-for-liquids' } as const)[use]
}
