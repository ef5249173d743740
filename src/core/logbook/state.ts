/** What the logbook says stands where: every run, every kiln's firing, and what does not add up. Knows no clock, no air. */
import type { CoverKind } from '#core/drying/types.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Interval, Minute } from '#core/time.ts'
import type { FeltVerdict, LoadMember, LossCause } from './entry.ts'

/**
 * How far a run is. `clay`: cut, steps still to come while the clay is workable. `drying`: the last clay step is done.
 * `in bisque` and `in glaze`: loaded, not yet unloaded. `bisque`: waits for glaze. `glazed`: waits for its firing.
 * `fired`: out of the glaze firing, to be finished. `refire`: to be fired again. `gone`: nothing of it is left.
 */
export type RunStage = 'begun' | 'clay' | 'drying' | 'in bisque' | 'bisque' | 'glazed' | 'in glaze' | 'fired' | 'refire' | 'gone'

/** Under which cover and where, from then on, until the next one. */
export type Waiting = { readonly fromMin: Minute; readonly cover: CoverKind; readonly spotId: string }

export type RunState = {
  readonly id: string
  readonly designId: string
  readonly stage: RunStage
  /** Pieces alive in this run and stage; losses, seconds and splits are taken off. */
  readonly count: number
  readonly cutMin: Minute | null
  /** Half-width of what is known of `cutMin`. */
  readonly cutRoughMin: number
  /** Ids of the design's clay steps that are done, in the order in which they were done, and when the last was done. */
  readonly doneStepIds: readonly string[]
  readonly lastStepMin: Minute | null
  readonly waits: readonly Waiting[]
  readonly felt: readonly { readonly minute: Minute; readonly roughMin: number; readonly stepId: string | null; readonly verdict: FeltVerdict }[]
  readonly weighed: readonly { readonly minute: Minute; readonly massKg: number }[]
  readonly dampenedMin: readonly Minute[]
  readonly glazeId: string | null
  readonly glazedMin: Minute | null
  readonly firingId: string | null
}

export type FiringState = {
  readonly id: string
  readonly kilnId: string
  readonly kind: FiringKind
  readonly scheduleId: string
  readonly members: readonly LoadMember[]
  readonly loadedMin: Minute
  readonly firedMin: Minute | null
  readonly candleHours: number
  readonly openedMin: Minute | null
  readonly unloadedMin: Minute | null
  readonly readings: readonly { readonly minute: Minute; readonly tempC: number }[]
  readonly energyKwh: number | null
}

/** Ware counted by what it is: finished and bisque that belongs to no run. Negative never; a question is asked instead. */
export type ShelfCount = {
  readonly designId: string
  readonly stage: 'bisque' | 'finished' | 'second'
  readonly glazeId: string | null
  readonly count: number
}

export type QuestionCode =
  | 'unknown-run'
  | 'unknown-design'
  | 'unknown-step'
  | 'unknown-firing'
  | 'unknown-entry'
  | 'more-than-there-are'
  | 'wrong-stage'
  | 'step-out-of-order'
  | 'not-on-the-shelf'
  | 'kiln-already-loaded'
  | 'made-twice'
  | 'count-does-not-add-up'

/** An entry that does not fit: kept, shown, and left without effect (in whole or in part) until the potter says. */
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
  /** Every run that ever was, by id; those with stage `gone` too. */
  readonly runs: readonly RunState[]
  readonly firings: readonly FiringState[]
  readonly shelf: readonly ShelfCount[]
  readonly delivered: readonly { readonly orderId: string; readonly designId: string; readonly glazeId: string | null; readonly count: number }[]
  readonly received: readonly { readonly clayId: string | null; readonly glazeId: string | null; readonly massKg: number; readonly minute: Minute }[]
  /** Clay cut so far, pieces by design, so that clay on hand can be reckoned. */
  readonly cut: readonly { readonly designId: string; readonly count: number; readonly minute: Minute }[]
  readonly scraps: readonly { readonly clayId: string; readonly moistureDb: number; readonly minute: Minute }[]
  readonly away: readonly (Interval & { readonly makerId: string })[]
  readonly losses: readonly LossRecord[]
  readonly questions: readonly Question[]
  /** Entries without effect because a later one corrected them. */
  readonly voided: readonly string[]
}
