import { defaultClay, endOfShrinkageDb, firmnessThresholdDb, linearShrinkage } from '#core/drying/clay.ts'
import type { ClayShrinkage, Size, SizeStage, StageShrinkage, TemplateState } from './types.ts'

/**
 * A length at one stage as it is at another: finished 300 mm as it must be cut, a bisque box as it was measured wet.
 * @param lengthMm 0 or more
 * @see ASTM C326: stages chain, 1 - St = (1 - Sd)(1 - Sf); a sum of stages is wrong
 */
export const lengthAt = (lengthMm: number, from: SizeStage, to: SizeStage, shrinkage: ClayShrinkage): number =>
  (lengthMm * leftAt(to, shrinkage.length, shrinkage)) / leftAt(from, shrinkage.length, shrinkage)

/** A size at one stage as it is at another, each direction by its own shrinkage. */
export function sizeAt(size: Size, from: SizeStage, to: SizeStage, shrinkage: ClayShrinkage): Size {
  const scaled = (lengthMm: number, stages: StageShrinkage): number =>
    (lengthMm * leftAt(to, stages, shrinkage)) / leftAt(from, stages, shrinkage)
  return {
    lengthMm: scaled(size.lengthMm, shrinkage.length),
    widthMm: scaled(size.widthMm, shrinkage.width ?? shrinkage.length),
    thicknessMm: scaled(size.thicknessMm, shrinkage.thickness ?? shrinkage.length),
  }
}

/** Total shrinkage of the wet length. */
export const totalShrinkage = (stages: StageShrinkage): number =>
  chained([stages.dryingRatio, stages.bisqueRatio, stages.glazeRatio])

/** Shares that follow each other, each on what the one before left, as one share of the start. @see W19 */
export const chained = (ratios: readonly number[]): number => 1 - ratios.reduce((left, ratio) => left * (1 - ratio), 1)

/**
 * The stages behind a clay maker's two figures.
 * @param totalRatio of the wet length; `dryingRatio` likewise, and smaller
 * @param bisqueRatio of the dry length; near 0 for low bisque, may be a small growth
 * @returns firing shrinkage on the length it starts from, not the difference of the two (W20: 8.15 %, not 7.5)
 */
export function stagesOf(totalRatio: number, dryingRatio: number, bisqueRatio = 0): StageShrinkage {
  return { dryingRatio, bisqueRatio, glazeRatio: 1 - (1 - totalRatio) / ((1 - dryingRatio) * (1 - bisqueRatio)) }
}

/** The stages that a bar with a mark shows, measured four times along the same mark. Lengths more than 0. @see W16 */
export function stagesFromMarks(marks: {
  readonly wetMm: number
  readonly dryMm: number
  readonly bisqueMm: number
  readonly finishedMm: number
}): StageShrinkage {
  return {
    dryingRatio: 1 - marks.dryMm / marks.wetMm,
    bisqueRatio: 1 - marks.bisqueMm / marks.dryMm,
    glazeRatio: 1 - marks.finishedMm / marks.bisqueMm,
  }
}

/** A shrinkage put on the wet length; `converted` so that the screen can say it was entered otherwise. */
export type OnWetLength = { readonly ratio: number; readonly converted: boolean }

/**
 * Shrinkage of the wet length, from one reckoned on either length. Of 12.78 % reckoned on the fired length 11.33 % of the
 * wet one remain.
 * @see W16 and W17: one bar, two figures
 */
export const onWetLength = (ratio: number, base: 'wet' | 'fired'): OnWetLength =>
  base === 'wet' ? { ratio, converted: false } : { ratio: ratio / (1 + ratio), converted: true }

/** What comes of cutting a length (1 + s) times too long instead of dividing by (1 - s): too short by s². */
export type MultiplyingTrap = { readonly cutMm: number; readonly firesToMm: number; readonly shortMm: number }

/** The common mistake in the person's own numbers: 300 mm at 14 % cut 342 fires to 294.12. */
export function multiplyingTrap(finishedMm: number, totalRatio: number): MultiplyingTrap {
  const cutMm = finishedMm * (1 + totalRatio)
  const firesToMm = cutMm * (1 - totalRatio)
  return { cutMm, firesToMm, shortMm: finishedMm - firesToMm }
}

/** How long a division of a shrink ruler is on wet clay, that it may read true once fired. @see W22 */
export const rulerDivisionMm = (firedMm: number, totalRatio: number): number => firedMm / (1 - totalRatio)

/** Shrinkage of the volume when all three directions shrink alike. @see W21 */
export const volumeShrinkage = (linearRatio: number): number => chained([linearRatio, linearRatio, linearRatio])

/**
 * Share of its drying shrinkage that a usual body has done in this state; about a third when soft, two thirds when leather
 * hard. The moistures that part the states are assumptions of the drying model.
 */
export function usualShrunkBy(state: TemplateState, dryingRatio: number): number {
  if (state === 'fresh' || dryingRatio < LEAST_DRYING_RATIO) return 0
  const bodyMoistureDb = defaultClay.startMoistureDb.value
  const endDb = endOfShrinkageDb(dryingRatio, bodyMoistureDb)
  const moistureDb = firmnessThresholdDb(state, {
    bodyMoistureDb,
    endOfShrinkageDb: endDb,
    oswinA: defaultClay.oswinA.value,
    oswinB: defaultClay.oswinB.value,
    feelShiftDb: 0,
  })
  return linearShrinkage(moistureDb, bodyMoistureDb, endDb) / linearShrinkage(endDb, bodyMoistureDb, endDb)
}

/** Below this a clay does not shrink in drying, and shares of nothing are nothing. */
const LEAST_DRYING_RATIO = 1e-6

/** What is left of the wet length at a stage. */
function leftAt(stage: SizeStage, stages: StageShrinkage, shrinkage: ClayShrinkage): number {
  const { dryingRatio, bisqueRatio } = stages
  switch (stage) {
    case 'fresh':
      return 1
    case 'soft':
      return 1 - dryingRatio * (shrinkage.shrunkBySoftRatio ?? usualShrunkBy('soft', dryingRatio))
    case 'leather hard':
      return 1 - dryingRatio * (shrinkage.shrunkByLeatherHardRatio ?? usualShrunkBy('leather hard', dryingRatio))
    case 'dry':
      return 1 - dryingRatio
    case 'bisque':
      return 1 - chained([dryingRatio, bisqueRatio])
    case 'finished':
      return 1 - totalShrinkage(stages)
  }
}
