import { dayAfter } from '#app/calendar/days.ts'
import { dayAt } from '#app/calendar/zone.ts'
import { type DayAir, dayAirs } from '#core/air/dayAir.ts'
import { hourlyOutlook } from '#core/air/outlook.ts'
import { OUTDOORS } from '#core/air/spotAirs.ts'
import type { AirOutlook } from '#core/air/types.ts'
import { airsOf } from '#core/planning/facts/spotAir.ts'
import type { PlanningCase } from '#core/planning/plan.ts'
import type { Maker } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Db } from '#store/db.ts'
import { latestPlan } from '#store/plans.ts'
import { HORIZON_DAYS, planningCaseOf } from '../studio/planningCaseOf.ts'
import { startOfDay } from '../studio/wireTime.ts'
import { studioAt } from './loadCase.ts'

/** What the plan takes for given, laid out by the minute and by the day. */
export type Ground = {
  /** Up to here the air was read; beyond it is outlook. */
  readonly nowMin: Minute
  readonly makers: readonly Pick<Maker, 'id' | 'makingHours' | 'lookInHours' | 'kilnWatchHours'>[]
  /** `spotId` null: the weather outside, where it is read. */
  readonly air: readonly {
    readonly spotId: string | null
    /** Whether anything was read there; else a word stands for it. */
    readonly isRead: boolean
    readonly days: readonly DayAir[]
  }[]
}

/**
 * The hours and the air that the newest plan was made with; before there is one, as of now.
 * @throws Refusal `not-found` as `studioAt`
 */
export async function groundOf(db: Db, studioId: string, nowMin: Minute): Promise<Ground> {
  const { tables, logPosition } = await studioAt(db, studioId, nowMin)
  const madeMin = (await latestPlan(db, studioId))?.input.nowMin ?? nowMin
  const request = { nowMin: madeMin, logPosition, seed: 0, effort: 0, basePlan: null }
  const planningCase = planningCaseOf(tables, [], request)
  const { zone } = tables.studio
  const today = dayAt(madeMin, zone)
  const dayStarts = Array.from({ length: HORIZON_DAYS + 1 }, (_, i) => startOfDay(dayAfter(today, i), zone))
  const readFrom = new Set(planningCase.studio.airReadings.map(({ spotId }) => spotId))
  const { outlooks } = airsOf(planningCase)
  const outdoors = readFrom.has(OUTDOORS)
    ? [{ spotId: null, isRead: true, days: dayAirs(outdoorOutlook(planningCase), dayStarts) }]
    : []
  return {
    nowMin: madeMin,
    makers: planningCase.studio.makers.map(({ id, makingHours, lookInHours, kilnWatchHours }) => ({
      id,
      makingHours,
      lookInHours,
      kilnWatchHours,
    })),
    air: [
      ...outdoors,
      ...planningCase.studio.spots.map(({ id, air }) => ({
        spotId: id,
        isRead: air.kind !== 'word' && readFrom.has(air.kind === 'outdoors' ? OUTDOORS : id),
        days: dayAirs(outlooks.get(id)!, dayStarts),
      })),
    ],
  }
}

function outdoorOutlook({ studio, input, horizonMin, dayOffsetMin }: PlanningCase): AirOutlook {
  const readings = studio.airReadings.filter(({ spotId }) => spotId === OUTDOORS)
  const { nowMin } = input
  const span = { fromMin: nowMin - MIN_PER_DAY, toMin: horizonMin, nowMin, dayOffsetMin }
  return hourlyOutlook(readings, { ...span, airSpeedMS: 0, word: 'normal' }).outlook
}
