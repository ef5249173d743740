import { dayAfter } from '#app/calendar/days.ts'
import { dayAt, wallAt } from '#app/calendar/zone.ts'
import type { EntryRecord } from '#contract/entry.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import { inLogNames } from '#core/planning/logNames.ts'
import type { Plan, PlanningCase } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { toEntries } from './toEntries.ts'
import { toStudio } from './toStudio.ts'
import { minuteOf, startOfDay } from './wireTime.ts'

/** How far ahead is planned. */
export const HORIZON_DAYS = 56

export type PlanningRequest = {
  readonly nowMin: Minute
  /** Position of the last of the entries. */
  readonly logPosition: number
  readonly seed: number
  /** Rounds of improvement; 0: the first plan as it is constructed. */
  readonly effort: number
  /** The plan the potter has seen. */
  readonly basePlan: Plan | null
}

/**
 * All that a plan is made from. Calendars begin with today, so that what the plan says of this morning still stands;
 * what starts before the end of tomorrow is held; both are days of the studio's zone.
 * @throws Refusal as `toStudio`
 */
export function planningCaseOf(
  tables: StudioTables,
  entries: readonly EntryRecord[],
  { nowMin, logPosition, seed, effort, basePlan }: PlanningRequest,
): PlanningCase {
  const { zone } = tables.studio
  const today = dayAt(nowMin, zone)
  const horizonMin = startOfDay(dayAfter(today, HORIZON_DAYS), zone)
  return inLogNames({
    input: { logPosition, nowMin, basePlanId: basePlan?.id ?? null, seed, effort },
    studio: toStudio(tables, { fromMin: startOfDay(today, zone), horizonMin }),
    entries: toEntries(entries),
    holdUntilMin: startOfDay(dayAfter(today, 2), zone),
    horizonMin,
    dayOffsetMin: minuteOf(`${wallAt(nowMin, zone)}:00.000Z`) - nowMin,
    basePlan,
  })
}
