/** The plan: what is to happen, who does it, when, under which cover, in which load, and what could not be kept. */
import type { Entry } from '#core/logbook/entry.ts'
import type { CoverKind } from '#core/drying/types.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Load } from '#core/loading/types.ts'
import type { Minute } from '#core/time.ts'
import type { Studio } from '#core/studio/studio.ts'
import type { PlanningReason } from './reasons.ts'

/** Stored with the plan. The same input over the same log gives the same plan, byte for byte, anywhere. */
export type PlanInput = {
  /** Position of the last entry that was taken in. */
  readonly logPosition: number
  readonly nowMin: Minute
  /** The plan the potter has seen; today and tomorrow stay as it says. */
  readonly basePlanId: string | null
  readonly seed: number
  /** Rounds of improvement: a count, never seconds. 0 = the first plan as constructed. */
  readonly effort: number
}

/** All that a plan is made from. `basePlan` is the plan that `input.basePlanId` names. */
export type PlanningCase = {
  readonly input: PlanInput
  readonly studio: Studio
  readonly entries: readonly Entry[]
  /** The end of tomorrow in the studio's zone: what starts before it stays put. */
  readonly holdUntilMin: Minute
  /** How far ahead calendars and air were laid out; nothing is planned beyond. */
  readonly horizonMin: Minute
  readonly basePlan: Plan | null
}

/** The longest span in which a step can be done at `odds`, over all parts of all its pieces. */
export type StepWindow = {
  readonly openMin: Minute
  readonly closeMin: Minute
  readonly odds: number
  /** The part that closes it: "edges go first". */
  readonly bindingPart: string
}

/** Hands on a step of a run, or a look-in at it. One maker, one thing at a time. */
export type RunTask = {
  readonly id: string
  readonly kind: 'step' | 'look-in'
  readonly runId: string
  /** The design's step; for a look-in `look-in:` and its number. */
  readonly stepId: string
  readonly makerId: string
  readonly startMin: Minute
  readonly endMin: Minute
  readonly count: number
  /** Where the clay's state bounds it. */
  readonly window: StepWindow | null
  /** How the run waits once this is done; null: as before, or no longer clay. */
  readonly after: { readonly cover: CoverKind; readonly spotId: string } | null
  /** True: it could not move, for the potter has pinned it. */
  readonly pinned: boolean
}

/** Hands at a kiln. `start` and `shut-off` take a kiln watch, the others kiln hands within making hours. */
export type KilnTask = {
  readonly id: string
  readonly kind: 'load' | 'start' | 'switch-up' | 'shut-off' | 'open' | 'unload'
  readonly firingId: string
  readonly makerId: string
  readonly startMin: Minute
  readonly endMin: Minute
}

/** Pieces of a run meant for one order line; `orderLineId` null: no order asked for them (losses, fillers). */
export type Allotment = {
  readonly orderId: string | null
  readonly orderLineId: string | null
  readonly count: number
  readonly glazeId: string | null
}

export type PlannedRun = {
  /** A run under way keeps its id; one still to be begun is named `new:` design and number. */
  readonly id: string
  readonly designId: string
  /** True: already in the logbook. */
  readonly underWay: boolean
  /** Pieces started; more than are allotted, by the losses to be expected. */
  readonly count: number
  readonly allotments: readonly Allotment[]
  /** Boards it takes and the spots it takes them at, from when to when. */
  readonly boards: readonly { readonly spotId: string; readonly boardCount: number; readonly fromMin: Minute; readonly toMin: Minute }[]
  /** From the cut: cover, spot, and from when, including what the log says of the past. */
  readonly waits: readonly { readonly fromMin: Minute; readonly cover: CoverKind; readonly spotId: string }[]
  readonly cutMin: Minute | null
  /** When it may be loaded for bisque at the odds wanted; null once bisque fired. */
  readonly dryMin: Minute | null
  readonly candleHours: number
  readonly readyMin: Minute | null
}

export type FiringMember = {
  /** null: bisque from the shelf that belongs to no run. */
  readonly runId: string | null
  readonly designId: string
  readonly glazeId: string | null
  readonly count: number
}

export type PlannedFiring = {
  readonly id: string
  readonly kilnId: string
  readonly kind: FiringKind
  readonly scheduleId: string
  /** True: already loaded; its members and past are the logbook's. */
  readonly underWay: boolean
  readonly members: readonly FiringMember[]
  readonly candleHours: number
  /** The kiln is busy from `loadMin` to `emptyMin`. */
  readonly loadMin: Minute
  readonly startMin: Minute
  readonly switchUpsMin: readonly Minute[]
  readonly shutOffMin: Minute
  readonly openMin: Minute
  readonly unloadMin: Minute
  readonly emptyMin: Minute
  readonly energyKwh: number
  /** Where each piece stands; null for a firing under way whose load the logbook does not tell piece by piece. */
  readonly load: Load | null
  /** Share of shelf area taken, 0 to 1. */
  readonly fill: number
}

/** What can honestly be said of one line of an order. */
export type OrderPromise = {
  readonly orderId: string
  readonly orderLineId: string
  readonly designId: string
  readonly wanted: number
  /** Pieces that this plan has ready by the date. */
  readonly onTime: number
  /** Pieces that it has ready, but later. */
  readonly late: number
  /** When the last piece of those placed is packed; null: none is placed. */
  readonly readyMin: Minute | null
  /** Odds that those counted on time are. */
  readonly odds: number
  /** The latest cut that still keeps the date, if anything is still to be cut. */
  readonly lastSafeCutMin: Minute | null
}

export type LeftOut = {
  readonly orderId: string | null
  readonly orderLineId: string | null
  readonly runId: string | null
  readonly designId: string
  readonly count: number
  readonly reasons: readonly PlanningReason[]
  readonly remedies: readonly PlanningReason[]
}

/** A better place for something of today or tomorrow: not done, offered. */
export type Offer = {
  readonly id: string
  readonly taskId: string
  readonly runId: string | null
  readonly stepId: string | null
  readonly fromMin: Minute
  readonly toMin: Minute
  readonly makerId: string
  /** What it would gain, by the name of the cost that falls, and by how much. */
  readonly gains: readonly { readonly cost: CostName; readonly amount: number }[]
}

/** The costs in their order of levels; a level outweighs all below it. */
export type CostName =
  | 'wareLost'
  | 'lateWeight'
  | 'changes'
  | 'firings'
  | 'energyKwh'
  | 'sessions'
  | 'thinWindows'
  | 'standingDays'

export type Costs = Readonly<Record<CostName, number>>

export type Plan = {
  readonly id: string
  readonly input: PlanInput
  readonly tasks: readonly RunTask[]
  readonly kilnTasks: readonly KilnTask[]
  readonly runs: readonly PlannedRun[]
  readonly firings: readonly PlannedFiring[]
  readonly promises: readonly OrderPromise[]
  readonly leftOut: readonly LeftOut[]
  readonly offers: readonly Offer[]
  readonly costs: Costs
}

/** A thing that must never be in a plan, found there. */
export type Breach = {
  readonly check: string
  readonly params: Readonly<Record<string, string | number>>
}
