/** What decides the limits of food ware: its shape and use. */
export type FoodWare = {
  /** Inside, from the lowest point to the plane of the rim; 0 for what cannot be filled. */
  readonly depthMm: number
  readonly capacityL: number
  readonly use: 'table' | 'cup' | 'pitcher' | 'cooking' | 'storage'
}

export type UsCategory = 'flatware' | 'small hollowware' | 'large hollowware' | 'cups and mugs' | 'pitchers'

/** The category and its leach limits, ug/mL. */
export type UsFoodContact = { readonly category: UsCategory; readonly leadUgMl: number; readonly cadmiumUgMl: number }

/** The category and its limits: category 1 in mg/dm², 2 and 3 in mg/L. */
export type EuFoodContact = {
  readonly category: 1 | 2 | 3
  readonly lead: number
  readonly cadmium: number
  readonly unit: 'mg/dm2' | 'mg/L'
}

/** Up to this depth ware is flat. Both laws. */
const FLAT_DEPTH_MM = 25
/** From this capacity hollowware is large. */
const LARGE_L = 1.1
/** Above this capacity a storage vessel is in the EU's third category. */
const STORAGE_L = 3

/**
 * Category and limits in the United States. The tool shows them; it does not certify.
 * @see FDA Compliance Policy Guides 545.400 (cadmium) and 545.450 (lead); cups, mugs and pitchers: Food Code 4-101.13
 */
export function usFoodContact(ware: FoodWare): UsFoodContact {
  if (ware.use === 'cup') return { category: 'cups and mugs', leadUgMl: 0.5, cadmiumUgMl: hollowCadmium(ware) }
  if (ware.use === 'pitcher') return { category: 'pitchers', leadUgMl: 0.5, cadmiumUgMl: hollowCadmium(ware) }
  if (ware.depthMm <= FLAT_DEPTH_MM) return { category: 'flatware', leadUgMl: 3, cadmiumUgMl: 0.5 }
  return ware.capacityL < LARGE_L
    ? { category: 'small hollowware', leadUgMl: 2, cadmiumUgMl: 0.5 }
    : { category: 'large hollowware', leadUgMl: 1, cadmiumUgMl: 0.25 }
}

/** Category and limits in the European Union; lower ones are under discussion. @see Directive 84/500/EEC, art. 2(4) */
export function euFoodContact(ware: FoodWare): EuFoodContact {
  if (ware.use === 'cooking' || (ware.use === 'storage' && ware.capacityL > STORAGE_L)) {
    return { category: 3, lead: 1.5, cadmium: 0.1, unit: 'mg/L' }
  }
  return ware.depthMm <= FLAT_DEPTH_MM
    ? { category: 1, lead: 0.8, cadmium: 0.07, unit: 'mg/dm2' }
    : { category: 2, lead: 4, cadmium: 0.3, unit: 'mg/L' }
}

/** A result this much over the limit may still pass if others of its kind do. */
const TOLERANCE = 1.5
const OTHERS_NEEDED = 3

/**
 * Whether a leach test passes.
 * @param others results of identical pieces, wanted when `result` is over the limit by no more than half
 * @see Directive 84/500/EEC, art. 2(5): at least three others, mean within the limit, none over it by more than half
 */
export function passesEuLeachTest(result: number, others: readonly number[], limit: number): boolean {
  if (result <= limit) return true
  if (result > limit * TOLERANCE || others.length < OTHERS_NEEDED) return false
  const mean = others.reduce((sum, other) => sum + other, 0) / others.length
  return mean <= limit && others.every((other) => other <= limit * TOLERANCE)
}

const hollowCadmium = ({ capacityL }: FoodWare): number => (capacityL < LARGE_L ? 0.5 : 0.25)
