/**
 * The logbook's entries: what happened, never what should. A well-formed entry is always accepted; one that does not fit
 * the state becomes a question to the potter. Bodies stand alone, since the plan may have changed under an offline tap.
 */
import type { CoverKind } from '#core/drying/types.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Minute } from '#core/time.ts'

/** How the clay felt for the step in hand. */
export type FeltVerdict = 'too soft' | 'just right' | 'too dry' | 'chalky' | 'dry'
export const feltVerdicts: readonly FeltVerdict[] = ['too soft', 'just right', 'too dry', 'chalky', 'dry']

export type LossCause = 'cracked' | 'warped' | 'broken' | 'burst' | 'glaze fault' | 'other'
export const lossCauses: readonly LossCause[] = ['cracked', 'warped', 'broken', 'burst', 'glaze fault', 'other']

/** What of a run is meant: how many pieces. The rest of the run is untouched. */
type OfRun = { readonly runId: string; readonly count: number }
export type ConeBend = 'standing' | 'soft' | 'down' | 'flat'
type Waits = { readonly cover: CoverKind; readonly spotId: string }

export type LoadMember = {
  /** null: from stock that belongs to no run; then `designId` says what. */
  readonly runId: string | null
  readonly designId: string
  readonly glazeId: string | null
  readonly count: number
}

export type SortedMember = LoadMember & {
  readonly good: number
  readonly second: number
  readonly refire: number
  readonly lost: number
  readonly cause: LossCause | null
}

/** The closed list of kinds with their bodies, version 1. */
export type EntryBodies = {
  /** The studio's own setting was changed; the setting itself is kept in its table. */
  readonly 'studio-edited': { readonly what: string }
  /** Clay or glaze came in. */
  readonly received: { readonly clayId: string | null; readonly glazeId: string | null; readonly massKg: number }
  /** A run was begun (client-made id) for a design; nothing cut yet. */
  readonly begun: OfRun & { readonly designId: string }
  readonly cut: OfRun & { readonly designId: string } & Waits
  readonly trued: OfRun
  readonly moved: { readonly runId: string; readonly spotId: string }
  readonly covered: { readonly runId: string; readonly cover: CoverKind }
  readonly turned: { readonly runId: string }
  readonly dampened: { readonly runId: string }
  readonly weighed: { readonly runId: string; readonly massKg: number }
  readonly felt: { readonly runId: string; readonly stepId: string | null; readonly verdict: FeltVerdict }
  /** A scrap was weighed wet and again after drying at 105 °C: moisture, kg water per kg dry clay. */
  readonly 'scrap-dried': { readonly runId: string | null; readonly clayId: string; readonly moistureDb: number }
  /** Two ruler marks: length now over length when cut. */
  readonly ruled: { readonly runId: string; readonly lengthRatio: number }
  /** One step of joining, draping or releasing was done on `count` pieces. */
  readonly joined: OfRun & { readonly stepId: string } & Waits
  readonly refined: OfRun & { readonly stepId: string } & Waits
  readonly decorated: OfRun & { readonly stepId: string } & Waits
  /** `count` pieces leave the run and become run `intoRunId`. */
  readonly split: OfRun & { readonly intoRunId: string }
  readonly second: OfRun
  readonly lost: OfRun & { readonly cause: LossCause }
  readonly loaded: {
    readonly firingId: string
    readonly kilnId: string
    readonly firingKind: FiringKind
    readonly scheduleId: string
    readonly members: readonly LoadMember[]
  }
  /** The kiln was switched on. */
  readonly fired: { readonly firingId: string; readonly candleHours: number }
  readonly 'temperature-read': { readonly firingId: string; readonly tempC: number }
  readonly 'cone-read': { readonly firingId: string; readonly cone: string; readonly bend: ConeBend }
  readonly 'meter-read': { readonly firingId: string; readonly energyKwh: number }
  readonly opened: { readonly firingId: string }
  readonly unloaded: { readonly firingId: string; readonly sorted: readonly SortedMember[] }
  /** `runId` null: bisque from stock; then `designId` says what, and `intoRunId` names the run it becomes. */
  readonly glazed: {
    readonly runId: string | null
    readonly designId: string
    readonly intoRunId: string
    readonly glazeId: string
    readonly count: number
  }
  readonly finished: OfRun
  readonly delivered: {
    readonly orderId: string
    readonly designId: string
    readonly glazeId: string | null
    readonly count: number
  }
  /** A maker will not be, or was not, there. */
  readonly away: { readonly makerId: string; readonly fromMin: Minute; readonly toMin: Minute }
  /**
   * Entry `entryId` is as if it had never been; what was true instead is another entry. To correct a correction brings
   * back what it made void.
   */
  readonly corrected: { readonly entryId: string }
}

export type EntryKind = keyof EntryBodies

export type EntryOf<Kind extends EntryKind> = {
  readonly id: string
  readonly version: 1
  readonly kind: Kind
  readonly happenedMin: Minute
  /** "This morning" is an interval: the truth lies within this many minutes either side. 0 = exact. */
  readonly roughMin: number
  readonly deviceId: string
  readonly deviceSeq: number
  /** Who; a maker's id, or null when it was not said. */
  readonly by: string | null
  readonly body: EntryBodies[Kind]
  /** The planned step it answers, if it was tapped from a plan. */
  readonly hint: { readonly planId: string; readonly stepId: string } | null
}

/** One entry; `body` goes with `kind`. */
export type Entry = { readonly [Kind in EntryKind]: EntryOf<Kind> }[EntryKind]

/** The order in which entries are folded: when it happened, then the device, then the device's own count; last the id. */
export function byHappening(a: Entry, b: Entry): number {
  if (a.happenedMin !== b.happenedMin) return a.happenedMin - b.happenedMin
  if (a.deviceId !== b.deviceId) return a.deviceId < b.deviceId ? -1 : 1
  if (a.deviceSeq !== b.deviceSeq) return a.deviceSeq - b.deviceSeq
  return a.id === b.id ? 0 : a.id < b.id ? -1 : 1
}
