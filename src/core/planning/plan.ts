/** The plan: what is to happen, who does it, when, under which cover, in which load, and what could not be kept. */
import type { Entry } from '#core/logbook/entry.ts'
import type { CoverKind, Firmness } from '#core/drying/types.ts'
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
  /** What is added to a minute to make the studio's midnight, by its clock of now, fall on a whole day. */
  readonly dayOffsetMin: number
  readonly basePlan: Plan | null
  /** Orders to be ready as soon as they can be; only where a date is asked for. */
  readonly soonOrderIds?: readonly string[]
  /** Made for an answer and kept nowhere: what would help and what could be moved is not looked for. */
  readonly isTrial?: boolean
}

/** The longest span in which a step can be done at `odds`, over all parts of all its pieces. */
export type StepWindow = {
  readonly openMin: Minute
  readonly closeMin: Minute
  readonly odds: number
  /** The part that closes it: "edges go first". */
  readonly bindingPart: string
}

/**
 * Hands on a step of a run, or a look-in at it. One maker, one thing at a time, inside one span of hours (a look-in: one
 * of making or look-in hours). A step may be divided over several tasks, whose counts add up to the run's `count` (all
 * pieces, losses come as they come); cutting is one task, since its end is the run's `cutMin`. Pieces go to a step only
 * after that many have left the step before it; to glazing, once that many are out of their bisque; to finishing, out of
 * their glaze firing. A step takes exactly ceil(setupMin + minPerPiece count) minutes, a look-in `lookInMin`.
 * Steps that the logbook has as done, and tasks that began before now, are not in a plan.
 */
export type RunTask = {
  readonly id: string
  readonly kind: 'step' | 'look-in'
  readonly runId: string
  /** The design's step; for a look-in `look-in:` and its number. */
  readonly stepId: string
  /** For glaze, finish and pack: which glaze these pieces bear; null for clay. */
  readonly glazeId: string | null
  readonly makerId: string
  readonly startMin: Minute
  readonly endMin: Minute
  readonly count: number
  /** Where the clay's state bounds it. */
  readonly window: StepWindow | null
  /**
   * How the run waits from `endMin` on; null: as before, or no longer clay. Moulds are taken from the start of a drape
   * until the end of the next release (without one: of the next clay step), as many as pieces.
   */
  readonly after: { readonly cover: CoverKind; readonly spotId: string } | null
  /**
   * Hands that decide, at a look-in or at the end of a step: if every part that the next step needs is at least this firm
   * by then, the run goes under this cover and stays so until that step; if not, it waits as `after` says, or on as it is. So each future is met as a potter would meet it, and
   * `waits` tells the likeliest one. Null: decides nothing.
   */
  readonly parkWhen: { readonly firmness: Firmness; readonly cover: CoverKind } | null
  /** True: it could not move, for the potter has pinned it. */
  readonly pinned: boolean
}

/**
 * Hands at a kiln, by somebody with the skill `kiln`. `load` and `unload` fill loadMin..loadMin + kiln.loadMin and
 * unloadMin..emptyMin within making hours; `start`, each `switch-up`, `shut-off` and `open` are kiln watches of at
 * least a minute that begin at their moment. Moments before now (of a firing under way) need none.
 */
export type KilnTask = {
  readonly id: string
  readonly kind: 'load' | 'start' | 'switch-up' | 'shut-off' | 'open' | 'unload'
  readonly firingId: string
  readonly makerId: string
  readonly startMin: Minute
  readonly endMin: Minute
}

/**
 * Pieces of a run meant for one order line; `orderLineId` null: no order asked for them (losses, fillers). What is
 * glazed goes by these: of each glaze at least as many as are allotted with it.
 */
export type Allotment = {
  readonly orderId: string | null
  readonly orderLineId: string | null
  readonly count: number
  readonly glazeId: string | null
}

/**
 * Every run that the logbook has alive is here (one only `begun` may be), with the logbook's design and count; so is each
 * one to be begun, and bisque from the shelf that is to be glazed (`cutMin` null, no tasks before glazing).
 * A run whose ware cannot be brought on stays without further tasks, is named in `leftOut`, and keeps its boards.
 */
export type PlannedRun = {
  /** A run under way keeps its id; one still to be begun is named `new:` design and number, one from the shelf `shelf:`. */
  readonly id: string
  readonly designId: string
  /** True: already in the logbook. */
  readonly underWay: boolean
  /** Pieces started; may be more than the allotments add up to (spare against losses), never fewer. */
  readonly count: number
  readonly allotments: readonly Allotment[]
  /**
   * Ware boards it takes, and at which spots: from the cut (or now) until loading for the bisque begins, or to the
   * horizon; at every moment ceil(pieces not loaded / piecesPerBoard) at least. Fired ware needs none.
   */
  readonly boards: readonly {
    readonly spotId: string
    readonly boardCount: number
    readonly fromMin: Minute
    readonly toMin: Minute
  }[]
  /**
   * From the cut: cover, spot, and from when, rising, including all that the log says of the past. What is to come is
   * just what tasks with `after` set down, at their `endMin`, and what look-ins that decide (`parkWhen`) do in most of the
   * common draws: covers change only when somebody is there.
   * After the last join the run rests under tucked, sealed or damp cupboard for `evenOutHours`, then `slowDryHours`
   * under loose or closer, before it waits open or under cloth.
   */
  readonly waits: readonly { readonly fromMin: Minute; readonly cover: CoverKind; readonly spotId: string }[]
  /** The end of the cutting task: from then on the slabs wait under their first cover. */
  readonly cutMin: Minute | null
  /** From when on it is dry at the thickest spot at `DRY_ODDS`; null once bisque fired. */
  readonly dryMin: Minute | null
  /** Share of the common draws in which every clay step still to come falls inside its window; 1 when none is. */
  readonly windowOdds: number
}

export type FiringMember = {
  /** null: bisque from the shelf that belongs to no run. */
  readonly runId: string | null
  readonly designId: string
  readonly glazeId: string | null
  readonly count: number
}

/**
 * Members are pieces of runs of the plan, all of a run's `count` in its firings of one kind together. In `load` a piece's
 * key is its run's id, `#`, and a number from 1 up to the member count of that run in this firing. `id`: a firing under
 * way keeps the logbook's.
 */
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

/**
 * What can honestly be said of one line of an order: `wanted` is ordered less delivered, and is
 * onTime + late + (its pieces in `leftOut`). `onTime + late` is what is finished on the shelf for it (counted as ready
 * now) and what runs of the plan allot to it. Ready means its last step (usually packing) is done.
 */
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
  | 'tightDates'
  | 'standingDays'

export const costNames: readonly CostName[] = [
  'wareLost',
  'lateWeight',
  'changes',
  'firings',
  'energyKwh',
  'sessions',
  'thinWindows',
  'tightDates',
  'standingDays',
]

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
