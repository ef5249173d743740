/** A plan of a studio's file, checked before anything is said of it. */
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { Breach, Plan, PlannedRun, PlanningCase, RunTask } from '#core/planning/plan.ts'
import type { Context } from '#words/context.ts'
import { shortDateText } from '#words/times.ts'
import type { Options } from './call.ts'

export type Planned = { readonly planningCase: PlanningCase; readonly plan: Plan; readonly breaches: readonly Breach[] }

export function caseOf(file: StudioFile, { nowIn, seed, effort }: Options): PlanningCase {
  const nowMin = nowIn(file.studio.zone)
  return planningCaseOf(file, file.entries, { nowMin, logPosition: file.entries.length, seed, effort, basePlan: null })
}

export function planned(file: StudioFile, options: Options): Planned {
  const planningCase = caseOf(file, options)
  const plan = makePlan(planningCase)
  return { planningCase, plan, breaches: checkPlan(planningCase, plan) }
}

export const contextOf = (file: StudioFile, { nowIn, units }: Options): Context => ({
  zone: file.studio.zone,
  locale: 'en-GB',
  units,
  nowMin: nowIn(file.studio.zone),
})

/** Tells runs of one design apart where several of them are clay: “, cut Wed 2 Dec”; else nothing. */
export function whichText(
  { runId, startMin, glazeId }: RunTask,
  { runs }: Pick<Plan, 'runs'>,
  context: Context,
): string {
  const run = runs.find(({ id }) => id === runId)
  if (!run || run.cutMin === null || startMin < run.cutMin || glazeId !== null) return ''
  const isClay = ({ designId, cutMin, dryMin }: PlannedRun) =>
    designId === run.designId && cutMin !== null && cutMin <= startMin && dryMin !== null && dryMin > startMin
  return runs.filter(isClay).length > 1 ? `, cut ${shortDateText(run.cutMin, context)}` : ''
}
