/** A plan of a studio's file, checked before anything is said of it. */
import { SHOWN_FOR_MIN } from '#app/plan/age.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { Breach, Plan, PlannedRun, PlanningCase, RunTask } from '#core/planning/plan.ts'
import type { Context } from '#words/context.ts'
import { shortDateText } from '#words/times.ts'
import { type Options, said } from './call.ts'
import type { Kept } from './source.ts'

export type Planned = { readonly planningCase: PlanningCase; readonly plan: Plan; readonly breaches: readonly Breach[] }

export function caseOf(file: StudioFile, { nowIn, seed, effort }: Options, basePlan: Plan | null = null): PlanningCase {
  const nowMin = nowIn(file.studio.zone)
  return planningCaseOf(file, file.entries, { nowMin, logPosition: file.entries.length, seed, effort, basePlan })
}

export function planned(file: StudioFile, options: Options, basePlan: Plan | null = null): Planned {
  const planningCase = caseOf(file, options, basePlan)
  const plan = makePlan(planningCase)
  return { planningCase, plan, breaches: checkPlan(planningCase, plan) }
}

/**
 * The plan that the app shows, so that wall and screen say the same; it was checked before it was saved. Where it knows
 * less than the logbook or is older than the app lets one grow, one is made from it, which leaves today and tomorrow as
 * they were shown.
 */
export function shownOrPlanned({ file, shown }: Kept, options: Options): Planned {
  const base = baseOf({ file, shown }, options)
  const isNew = base !== null && options.nowIn(file.studio.zone) - base.input.nowMin <= SHOWN_FOR_MIN
  if (!isNew || base.input.logPosition !== file.entries.length) return planned(file, options, base)
  return { planningCase: caseOf(file, options, base), plan: base, breaches: [] }
}

/** What a plan, or a date, is to be made from. Who names a seed or an effort wants another plan than the one shown. */
export function baseOf({ file, shown }: Kept, options: Options): Plan | null {
  const isAnother = said(options, 'seed') !== undefined || said(options, 'effort') !== undefined
  return shown === null || isAnother || shown.input.nowMin > options.nowIn(file.studio.zone) ? null : shown
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
