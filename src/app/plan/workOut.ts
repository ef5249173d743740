import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { PlanningCase } from '#core/planning/plan.ts'
import type { PlanOutcome } from './work.ts'

/** Makes the plan and has it checked by those who had no part in making it. Runs in the planning thread. */
export function workOut(planningCase: PlanningCase): PlanOutcome {
  try {
    const plan = makePlan(planningCase)
    return { kind: 'made', plan, breaches: checkPlan(planningCase, plan) }
  } catch (error) {
    return { kind: 'fault', error: error instanceof Error ? (error.stack ?? error.message) : String(error) }
  }
}
