/** What passes between the server and the thread that plans. Plain data: it is copied from one to the other. */
import type { Breach, Plan, PlanningCase } from '#core/planning/plan.ts'

export type PlanWork = { readonly jobId: number; readonly planningCase: PlanningCase }

/** `breaches` of the plan as the independent check found them; a plan with any must not be shown. */
export type PlanOutcome =
  | { readonly kind: 'made'; readonly plan: Plan; readonly breaches: readonly Breach[] }
  /** The planner broke down: a bug, told as it was thrown. */
  | { readonly kind: 'fault'; readonly error: string }
  /** Stopped from outside, or out of time; there is no plan. */
  | { readonly kind: 'abandoned'; readonly outOfTime: boolean }

export type PlanAnswer = { readonly jobId: number; readonly outcome: PlanOutcome }
