import { boneDryDb } from './isotherm.ts'
import type { ClayDrying, Draw, Firmness, Uncertain } from './types.ts'

/** Density of clay's own particles, kg/m3. From memory; handbooks give 2550 to 2700. */
export const PARTICLE_DENSITY = 2650
const WATER_DENSITY = 1000

/** A quantity that strays by adding: `spread` is a standard deviation in its own unit. */
export const plus = (value: number, spread: number): Uncertain => ({ value, spread, kind: 'plus' })
/** A quantity that strays by a factor: `spread` is the standard deviation of its logarithm. */
export const times = (value: number, spread: number): Uncertain => ({ value, spread, kind: 'times' })
/** A quantity known to lie within a factor of its value, and no better: every factor as likely (by its logarithm). */
export const within = (value: number, mostTimes: number): Uncertain => ({
  value,
  spread: Math.log(mostTimes) / Math.sqrt(3),
  kind: 'evenly',
})

/**
 * A throwing body of 6 % drying shrinkage as bagged. Values and ranges, of which the spread is about half, rest on:
 * start moisture about 20 % of wet weight; end of shrinkage by volume balance; isotherm of unfired brick (measured);
 * diffusivity by analogy; vapour permeability measured on brick (6.6e-11, high); rim and feel are assumptions.
 */
export const defaultClay: ClayDrying = {
  startMoistureDb: plus(0.25, 0.012),
  endOfShrinkageDb: plus(0.14, 0.01),
  oswinA: times(0.017, 0.3),
  oswinB: times(0.38, 0.06),
  wetDiffusivityM2S: times(1e-8, 0.8),
  diffusivityFall: plus(4.6, 0.8),
  vapourPermeability: times(2e-11, 0.5),
  rimFactor: times(1.6, 0.2),
  feelShiftDb: plus(0, 0.012),
}

/** Volume of clay and its water per kg of dry clay, m3; below the end of shrinkage air takes the water's place. */
export const specificVolumeM3Kg = (moistureDb: number, endOfShrinkageDb: number): number =>
  1 / PARTICLE_DENSITY + Math.max(moistureDb, endOfShrinkageDb) / WATER_DENSITY

/**
 * Moisture at which a body stops shrinking, from its drying shrinkage, which a ruler alone gives.
 * @param dryingShrinkageRatio linear, of the wet length; 0.04 to 0.08 is usual
 * @returns dry basis, by volume balance; 0 at the least
 */
export function endOfShrinkageDb(dryingShrinkageRatio: number, startMoistureDb = 0.25): number {
  const wetVolume = specificVolumeM3Kg(startMoistureDb, 0)
  const dryVolume = wetVolume * (1 - dryingShrinkageRatio) ** 3
  return Math.max(0, (dryVolume - 1 / PARTICLE_DENSITY) * WATER_DENSITY)
}

/**
 * What nobody has said of a clay is that of a usual body which shrinks as much.
 * @param dryingRatio its shrinkage from wet to dry, of the wet length
 */
export function completedClay(known: Partial<ClayDrying>, dryingRatio: number): ClayDrying {
  const startMoistureDb = known.startMoistureDb ?? defaultClay.startMoistureDb
  const endDb = endOfShrinkageDb(dryingRatio, startMoistureDb.value)
  return { ...defaultClay, endOfShrinkageDb: { ...defaultClay.endOfShrinkageDb, value: endDb }, ...known }
}

/** Linear drying shrinkage of the wet length at a moisture (0 as bagged). */
export function linearShrinkage(moistureDb: number, startMoistureDb: number, endDb: number): number {
  return 1 - Math.cbrt(specificVolumeM3Kg(moistureDb, endDb) / specificVolumeM3Kg(startMoistureDb, endDb))
}

/**
 * Share of the way from the end of shrinkage to the start moisture at which a firmness begins. `leather hard` from
 * "about 15 %" of wet weight, the others assumptions; `chalky` is a share of the end of shrinkage itself (assumption:
 * the surface pales when the middle has lost a quarter of what was left).
 */
const SHARE_LEFT = { soft: 0.64, 'leather hard': 0.32, firm: 0.09 } as const
const CHALKY_SHARE = 0.72

/** What the hand calls this firmness begins at this moisture, going down. */
export function firmnessThresholdDb(firmness: Firmness, draw: ThresholdOf): number {
  if (firmness === 'bone dry') return boneDryDb(draw.oswinA, draw.oswinB)
  if (firmness === 'chalky') return CHALKY_SHARE * draw.endOfShrinkageDb
  const share = SHARE_LEFT[firmness]
  return draw.endOfShrinkageDb + share * (draw.bodyMoistureDb - draw.endOfShrinkageDb) + draw.feelShiftDb
}

/** The firmness word for a moisture; undefined while it is wetter than soft. */
export function firmnessOf(moistureDb: number, draw: ThresholdOf): Firmness | undefined {
  return firmnesses.findLast((firmness) => moistureDb <= firmnessThresholdDb(firmness, draw))
}

/** From wet to dry. */
export const firmnesses: readonly Firmness[] = ['soft', 'leather hard', 'firm', 'chalky', 'bone dry']

type ThresholdOf = Pick<Draw, 'bodyMoistureDb' | 'endOfShrinkageDb' | 'oswinA' | 'oswinB' | 'feelShiftDb'>
