/** The states in which a template may be laid on: it belongs to one of them. */
export type TemplateState = 'fresh' | 'soft' | 'leather hard'

/** The state of ware in which a length is taken, in the order in which a piece passes through them. */
export type SizeStage = TemplateState | 'dry' | 'bisque' | 'finished'

/**
 * Shrinkage of a length by stage, each share on the length it started from (never summed): drying on wet, bisque
 * on dry, glaze firing on bisque. Shares below 1; a small negative share (growth in the bisque) is allowed.
 */
export type StageShrinkage = {
  readonly dryingRatio: number
  readonly bisqueRatio: number
  readonly glazeRatio: number
}

/** Rolled slabs shrink otherwise across and through than along; a direction that is not given is as `length`. */
export type ClayShrinkage = {
  readonly length: StageShrinkage
  readonly width?: StageShrinkage
  readonly thickness?: StageShrinkage
  /** Share of the drying shrinkage that is done when soft, and when leather hard; see `usualShrunkBy` for absent ones. */
  readonly shrunkBySoftRatio?: number
  readonly shrunkByLeatherHardRatio?: number
}

/** Three lengths that shrink each in its own way: of a part, or of the box around a piece. */
export type Size = { readonly lengthMm: number; readonly widthMm: number; readonly thicknessMm: number }

/** Losses of a design, until the logbook knows better. All ratios 0 up to, not including, 1. */
export type LossRates = {
  /** Lost between cutting and bisque, of what was cut. */
  readonly dryingRatio: number
  /** Lost in the bisque, of what went in. */
  readonly bisqueRatio: number
  /** Spoiled in the glaze firing, of what went in. */
  readonly glazeRatio: number
  /** Sold as seconds, of what came out. */
  readonly secondRatio: number
  /** How far pieces of one load and clay share their luck: 0 each for itself, towards 1 all or none. */
  readonly correlation: number
  /** Of what the glaze firing spoiled, the share that comes out good when fired again; absent: no refires. */
  readonly refireGoodRatio?: number
}
