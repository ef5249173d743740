import type { Interval, Minute } from '../../time.ts'

/**
 * What the search is asked, and what it answers. It knows tasks, lags, resources and firing slots, no pots. All times
 * are whole minutes of one clock; every start and end lies inside `horizon`.
 */
export type Problem = {
  readonly horizon: Interval
  readonly tasks: readonly Task[]
  readonly lags: readonly Lag[]
  readonly monotoneArcs?: readonly MonotoneArc[]
  readonly resources: readonly Resource[]
  readonly kilns?: readonly Kiln[]
  /** Requirements that a person could relax; a lag, arc or resource names the one it hangs on. */
  readonly assumptions?: readonly Assumption[]
  /** In order: a minute of an earlier level outweighs everything in the later ones. At least one. */
  readonly costs: readonly CostLevel[]
}

/** For the layer that makes sentences of them: `code` says which sentence, `params` what goes into it. */
export type Reason = { readonly code: string; readonly params: Readonly<Record<string, string | number>> }

export type Task = {
  readonly id: string
  /** At least one; a task that is done is done in exactly one of them. */
  readonly modes: readonly Mode[]
  /** Tasks naming one group are done or left out together; without it the task is always done. */
  readonly group?: string
}

export type Mode = {
  readonly id: string
  /** >= 0; a task is not interrupted. */
  readonly durationMin: number
  /** Held from the start up to, not including, the end. */
  readonly demands: readonly Demand[]
  /** The minutes at which it may start; without it, any. */
  readonly starts?: readonly Interval[]
}

export type Demand = { readonly resourceId: string; readonly amount: number }

/** A point in time of a task. `origin` is minute 0 of the clock, for releases, deadlines and pins. */
export type Point = { readonly taskId: string; readonly at: 'start' | 'end' }
export const origin = 'origin'

/**
 * `minimumMin <= to - from <= maximumMin`, where given, if both tasks are done and every choice of `when` is taken.
 */
export type Lag = {
  readonly from: Point | typeof origin
  readonly to: Point
  readonly minimumMin?: number
  readonly maximumMin?: number
  readonly when?: readonly Choice[]
  readonly reason: Reason
  readonly assumptionId?: string
}

/** True if the task is done in that mode. */
export type Choice = { readonly taskId: string; readonly modeId: string }

/**
 * `to >= f(from)` or `to <= f(from)` with f never falling: working hours, drying windows. Applies as a lag does.
 * f before the first step bounds nothing if `at-least`, and allows nothing if `at-most`.
 */
export type MonotoneArc = {
  readonly from: Point
  readonly to: Point
  readonly bound: 'at-least' | 'at-most'
  readonly steps: StepFunction
  readonly when?: readonly Choice[]
  readonly reason: Reason
  readonly assumptionId?: string
}

/**
 * Never falling. From `fromMin` up to the next step the value is `valueMin`, plus the minutes since `fromMin` if
 * `slope` is 1. Steps rise strictly in `fromMin`.
 */
export type StepFunction = readonly Step[]
export type Step = { readonly fromMin: Minute; readonly valueMin: Minute; readonly slope: 0 | 1 }

/** Holds `capacity` at once, or that of the piece of `profile` (disjoint, rising) the minute lies in. */
export type Resource = {
  readonly id: string
  readonly capacity: number
  readonly profile?: readonly CapacityPiece[]
  readonly reason: Reason
  /** Relaxed as a whole: without it the resource bounds nothing. */
  readonly assumptionId?: string
}
export type CapacityPiece = Interval & { readonly capacity: number }

/**
 * A kiln's firings: its slots are tasks of the problem (grouped one by one, so that each may stay unused), used from
 * the first on and in order of time. A slot's mode is its family; members go into slots of a family that suits them.
 */
export type Kiln = {
  readonly id: string
  readonly slotIds: readonly string[]
  /** Room by dimension (area, height, mass ...): optimistic sums; the packing oracle has the last word. */
  readonly room: readonly number[]
  readonly members: readonly Member[]
  readonly setups?: readonly Setup[]
  /** When it may be used: a firing lies in one of them (disjoint, rising), with the set-up before it. */
  readonly hours?: readonly Interval[]
  /** The family the kiln is in before its first firing. */
  readonly initialFamilyId?: string
}

/**
 * A task that happens inside one slot and starts with it. Of several modes it is done in the one that is called as its
 * firing's family is, so that it can end with its firing; with a single mode (of no duration) take the end from the
 * slot. A member of several kilns is listed in each.
 */
export type Member = {
  readonly taskId: string
  /** By dimension of the kiln's room. */
  readonly size: readonly number[]
  /** Modes of the slots that suit it, dearest cases first or not: any may be taken. */
  readonly familyIds: readonly string[]
}

/** Minutes and cost between a firing of one family and the next of another (or the same). */
export type Setup = {
  readonly fromFamilyId: string
  readonly toFamilyId: string
  readonly minutes: number
  readonly cost: number
}

/**
 * Says whether the members fit one firing of the kiln. Only `impossible` is a proof, for a subset that can be named;
 * `not-found` is an assumption and is reported as one.
 */
export type PackingOracle = (kilnId: string, memberIds: readonly string[]) => PackingAnswer
export type PackingAnswer =
  | { readonly outcome: 'fits' }
  | { readonly outcome: 'impossible' | 'not-found'; readonly memberIds: readonly string[] }

/** `mostMin` and `pricePerMin` say how far the lags that name it may be stretched; without them it is dropped whole. */
export type Assumption = {
  readonly id: string
  readonly reason: Reason
  readonly stretch?: { readonly mostMin: number; readonly pricePerMin: number }
  /** Price of dropping it whole. */
  readonly price: number
}

export type CostLevel = { readonly name: string; readonly terms: readonly CostTerm[] }

/** Weights and costs are whole numbers >= 0; a level's worst case stays under 2^30. */
export type CostTerm =
  /** Minutes from the start of the horizon to the latest end. */
  | { readonly kind: 'makespan'; readonly weight: number }
  /** Minutes by which the task ends after `dueMin`. */
  | { readonly kind: 'tardiness'; readonly taskId: string; readonly dueMin: Minute; readonly weight: number }
  /** Once, if the task ends after `dueMin`. */
  | { readonly kind: 'late'; readonly taskId: string; readonly dueMin: Minute; readonly cost: number }
  | { readonly kind: 'left-out'; readonly group: string; readonly cost: number }
  | { readonly kind: 'mode'; readonly taskId: string; readonly modeId: string; readonly cost: number }
  /** Minutes by which the task starts before or after `startMin`, the plan that a person has seen. */
  | { readonly kind: 'moved'; readonly taskId: string; readonly startMin: Minute; readonly weight: number }
  /** Minutes from one point to another beyond `beyondMin`: ware standing about, a thin window. */
  | {
      readonly kind: 'span'
      readonly from: Point
      readonly to: Point
      readonly beyondMin: number
      readonly weight: number
    }
  | { readonly kind: 'setups'; readonly kilnId: string; readonly weight: number }

export type SolveOptions = {
  readonly seed: number
  /** Budget in conflicts of the core, over the whole search. */
  readonly conflicts: number
  /** Asked often; true ends the search with what there is. */
  readonly cancelled?: () => boolean
  /** A plan to begin from: kept where it can be kept. Need not be feasible. */
  readonly warm?: Plan
  readonly oracle?: PackingOracle
  /** Every better plan as it is found, the last one being the answer. */
  readonly onBetter?: (plan: Plan, costs: readonly number[]) => void
}

export type Plan = {
  /** In the problem's order of tasks. */
  readonly placed: readonly Placed[]
  readonly leftOutIds: readonly string[]
}

export type Placed = {
  readonly taskId: string
  readonly modeId: string
  readonly startMin: Minute
  readonly endMin: Minute
  /** The firing it goes into, for a member of a kiln. */
  readonly slotId?: string
}

/** `lowerBound` holds for the first level. Both bounds and statuses are proofs, except as `unproven` says. */
export type Solution = {
  readonly status: 'optimal' | 'feasible' | 'infeasible' | 'unknown'
  readonly plan?: Plan
  /** One for each level. */
  readonly costs: readonly number[]
  readonly lowerBound: number
  /** If it was seen at once that nothing is possible. Otherwise `explain` says why. */
  readonly cause?: Cause
  /** Member sets that were only not found to pack: what was concluded from them is no proof. */
  readonly unproven: readonly (readonly string[])[]
  readonly conflicts: number
  readonly iterations: number
}

/** Lags that cannot hold together round a cycle. */
export type Cause = {
  readonly kind: 'cycle'
  readonly reasons: readonly Reason[]
  readonly assumptionIds: readonly string[]
}

/** Why nothing satisfies a problem, and what would. */
export type Explanation =
  | { readonly kind: 'feasible'; readonly plan: Plan }
  | {
      readonly kind: 'conflict'
      /** Assumptions that cannot all hold; empty if it is impossible without any of them. */
      readonly assumptionIds: readonly string[]
      /** Each was proved to be needed: without it the others can all hold. */
      readonly isMinimal: boolean
      /** If the conflict is lags round a cycle: what they ask. */
      readonly cycle?: readonly Reason[]
      /** The cheapest that was found, each taken through the search and found to work; empty if none is known. */
      readonly remedies: readonly Remedy[]
    }
  /** Neither a plan nor a proof that there is none, within the budget. */
  | { readonly kind: 'no-proof' }

/** What to relax, together, and a plan that it allows. */
export type Remedy = {
  readonly relaxations: readonly Relaxation[]
  readonly price: number
  readonly plan: Plan
}

/** Stretched by so many minutes, or dropped whole. */
export type Relaxation = { readonly assumptionId: string; readonly stretchMin?: number }
