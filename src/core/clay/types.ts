/** The state of ware in which a length is taken, in the order in which a piece passes through them. */
export type SizeStage = 'fresh' | 'soft' | 'leather-hard' | 'dry' | 'bisque' | 'finished'

/** The states in which a template may be laid on: it belongs to one of them. */
export type TemplateState = Extract<SizeStage, 'fresh' | 'soft' | 'leather-hard'>

/**
 * Shrinkage of a length by stage, each share on the length it started from (never summed): drying on wet, bisque
 * on dry, glaze firing on bisque. Shares of 0 up to, not including, 1; a small negative share (growth) is allowed.
 */
export type StageShrinkage = {
  readonly dryingRatio: number
  readonly bisqueRatio: number
  readonly glazeRatio: number
}

/** Rolled slabs shrink otherwise across and through than along; what is not given is as `length`. */
export type BodyShrinkage = {
  readonly length: StageShrinkage
  readonly width?: StageShrinkage
  readonly thickness?: StageShrinkage
}

/** A box around a piece or part; also any three lengths that shrink each its own way. */
export type Size = { readonly lengthMm: number; readonly widthMm: number; readonly thicknessMm: number }

/** A clay body as its maker and the studio's ruler describe it; what drying needs is in `#core/drying`. */
export type ClayBody = {
  readonly name: string
  readonly shrinkage: BodyShrinkage
  /** Share of the drying shrinkage that is done when the clay is soft and when it is leather hard. */
  readonly shrunkBySoftRatio?: number
  readonly shrunkByLeatherHardRatio?: number
  /** Water in the fired body by ASTM C373, share of its dry mass. */
  readonly absorptionRatio?: number
}

/** Where ware is lost, in order. `seconds` are sold, but are not good. */
export type LossStage = 'drying' | 'bisque' | 'glaze' | 'seconds'

/** Losses of one stage. */
export type StageLoss = {
  readonly stage: LossStage
  /** Share lost on average, 0 up to, not including, 1. */
  readonly lostRatio: number
  /** How much the pieces of one load and clay share their luck: 0 each for itself, 1 all or none. Below 1. */
  readonly correlation: number
}

/** A second chance after the glaze firing. */
export type Refire = {
  /** Share of what the glaze firing spoiled that may be fired again. */
  readonly mendableRatio: number
  /** Share of those that come out good. */
  readonly goodRatio: number
}
