/** A plan of a studio's file, checked before anything is said of it. */
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { Breach, Plan, PlanningCase } from '#core/planning/plan.ts'
import type { Context } from '#words/context.ts'
import type { Options } from './call.ts'

export type Planned = { readonly planningCase: PlanningCase; readonly plan: Plan; readonly breaches: readonly Breach[] }

export function caseOf(file: StudioFile, { nowMin, seed, effort }: Options): PlanningCase {
  return planningCaseOf(file, file.entries, { nowMin, logPosition: file.entries.length, seed, effort, basePlan: null })
}

export function planned(file: StudioFile, options: Options): Planned {
  const planningCase = caseOf(file, options)
  const plan = makePlan(planningCase)
  return { planningCase, plan, breaches: checkPlan(planningCase, plan) }
}

export const contextOf = (file: StudioFile, { nowMin, units }: Options): Context => ({
  zone: file.studio.zone,
  locale: 'en-GB',
  units,
  nowMin,
})
