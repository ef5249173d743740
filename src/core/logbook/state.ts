/** What the logbook says stands where: every run, every kiln's firing, and what does not add up. Knows no clock, no air. */
import type { CoverKind } from '#core/drying/types.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Interval, Minute } from '#core/time.ts'
import type { ConeBend, FeltVerdict, LoadMember, LossCause } from './entry.ts'

/**
 * How far a run is. `clay`: cut, steps still to come while the clay is workable. `drying`: the last clay step is done.
 * `in bisque` and `in glaze`: loaded, not yet unloaded. `bisque`: waits for glaze. `glazed`: waits for its firing.
 * `fired`: out of the glaze firing, to be finished. `refire`: to be fired again. `gone`: nothing of it is left.
 */
export type RunStage =
  | 'begun'
  | 'clay'
  | 'drying'
  | 'in bisque'
  | 'bisque'
  | 'glazed'
  | 'in glaze'
  | 'fired'
  | 'refire'
  | 'gone'

/** Under which cover and where, from then on, until the next one. */
export type Waiting = {
  readonly fromMin: Minute
  readonly cover: CoverKind
  readonly spotId: string
  /** It was turned over at `fromMin`. */
  readonly turned?: true
  /** It was given water at `fromMin`. */
  readonly dampened?: true
}

/**
 * Pieces that have gone the same way together. When only some of a run's pieces are worked, loaded or sorted, these go on
 * as a run of their own, named after the run and the entry that parted them (`childRunId`), and the rest keeps the id.
 */
export type RunState = {
  readonly id: string
  /** The run these pieces came out of; null if they were cut as this one, or came from the shelf. */
  readonly parentId: string | null
  readonly designId: string
  readonly stage: RunStage
  /** Pieces alive in this run and stage; losses, seconds and splits are taken off. While `begun`: how many are meant. */
  readonly count: number
  readonly cutMin: Minute | null
  /** Half-width of what is known of `cutMin`. */
  readonly cutRoughMin: number
  /** Ids of the design's clay steps that are done, in the order in which they were done, and when the last was done. */
  readonly doneStepIds: readonly string[]
  readonly lastStepMin: Minute | null
  readonly waits: readonly Waiting[]
  readonly felt: readonly {
    readonly minute: Minute
    readonly roughMin: number
    readonly stepId: string | null
    readonly verdict: FeltVerdict
  }[]
  readonly weighed: readonly { readonly minute: Minute; readonly massKg: number }[]
  readonly ruled: readonly { readonly minute: Minute; readonly lengthRatio: number }[]
  readonly dampenedMin: readonly Minute[]
  /** When all of its slabs had been trued; null: not yet, or not said. */
  readonly truedMin: Minute | null
  readonly glazeId: string | null
  readonly glazedMin: Minute | null
  /** The firing it stands in; null before and after. */
  readonly firingId: string | null
}

export type FiringState = {
  readonly id: string
  readonly kilnId: string
  readonly kind: FiringKind
  readonly scheduleId: string
  /** As loaded, by the runs that its pieces then belonged to: `runId` is never null here. */
  readonly members: readonly LoadMember[]
  readonly loadedMin: Minute
  readonly firedMin: Minute | null
  readonly candleHours: number
  readonly openedMin: Minute | null
  /**
   * When the kiln was emptied, by an entry or because it was loaded again. A run that still stands in a kiln emptied long
   * ago was not sorted: a question asks for it.
   */
  readonly unloadedMin: Minute | null
  readonly cones: readonly { readonly minute: Minute; readonly cone: string; readonly bend: ConeBend }[]
  readonly readings: readonly { readonly minute: Minute; readonly tempC: number }[]
  readonly energyKwh: number | null
}

/**
 * Ware counted by what it is: finished, seconds, and bisque that belongs to no run. What stood there when the logbook
 * began (`Studio.stock`) is in it, less all that was taken since. Negative never; a question is asked instead.
 */
export type ShelfCount = {
  readonly designId: string
  readonly stage: 'bisque' | 'finished' | 'second'
  readonly glazeId: string | null
  readonly count: number
}

/**
 * `unknown-…`: nothing of that name (yet: an entry from another device may still bring it). `more-than-there-are`: only
 * `there` of `count` pieces could be meant. `wrong-stage`: the pieces are elsewhere. `step-out-of-order`: taken as done, and
 * what must have come before it too (steps, an unloading). `made-twice`: said before, or its id was used for something else. `design-differs`: the run is of
 * another design. `not-on-the-shelf`: only `there` of `count` were taken. `kiln-already-loaded`: the load in it was never
 * said to be out. `count-does-not-add-up`: the sorted pieces are not those that went in.
 */
export type QuestionCode =
  | 'unknown-run'
  | 'unknown-design'
  | 'unknown-step'
  | 'unknown-firing'
  | 'unknown-entry'
  | 'corrects-itself'
  | 'design-differs'
  | 'more-than-there-are'
  | 'wrong-stage'
  | 'step-out-of-order'
  | 'not-on-the-shelf'
  | 'kiln-already-loaded'
  | 'made-twice'
  | 'count-does-not-add-up'

/**
 * An entry that does not fit: kept, shown, and left without effect (in whole or in part) until the potter says.
 * `params` hold ids (`run`, `design`, `step`, `firing`, `kiln`, `entry`) and amounts (`count`, `there`).
 */
export type Question = {
  readonly entryId: string
  readonly code: QuestionCode
  readonly params: Readonly<Record<string, string | number>>
}

export type LossRecord = {
  readonly minute: Minute
  readonly designId: string
  readonly stage: RunStage
  readonly count: number
  readonly cause: LossCause | null
}

export type LogState = {
  /** Every run that ever was, in code-unit order of ids; those with stage `gone` too. */
  readonly runs: readonly RunState[]
  readonly firings: readonly FiringState[]
  /** By design, stage and glaze; counts above 0. */
  readonly shelf: readonly ShelfCount[]
  /** Pieces that left the shelf for an order, with the glaze they bear. */
  readonly delivered: readonly {
    readonly orderId: string
    readonly designId: string
    readonly glazeId: string | null
    readonly count: number
  }[]
  readonly received: readonly {
    readonly clayId: string | null
    readonly glazeId: string | null
    readonly massKg: number
    readonly minute: Minute
  }[]
  /** Clay cut so far, pieces by design, so that clay on hand can be reckoned. */
  readonly cut: readonly { readonly designId: string; readonly count: number; readonly minute: Minute }[]
  readonly scraps: readonly { readonly clayId: string; readonly moistureDb: number; readonly minute: Minute }[]
  readonly away: readonly (Interval & { readonly makerId: string })[]
  readonly losses: readonly LossRecord[]
  readonly questions: readonly Question[]
  /** Ids of entries without effect because another corrected them, in code-unit order. */
  readonly voided: readonly string[]
}
