import { compareCosts } from '#core/planning/makePlan.ts'
import type { Plan } from '#core/planning/plan.ts'
import type { Db } from '#store/db.ts'
import { logPositionOf } from '#store/logEntries.ts'
import { insertPlan, latestPlan, removeOldPlans } from '#store/plans.ts'

/** Enough to look back over a season's decisions; what happened is the logbook's and is kept for ever. */
const KEPT_PLANS = 200

/**
 * Saves a plan as the newest, unless the one that is there was made from more of the log, or from the same question and is
 * no worse.
 * @returns whether it was saved
 */
export function savePlan(db: Db, studioId: string, plan: Plan): Promise<boolean> {
  return db.transaction(async (db) => {
    // A plan of more than there is was made of a logbook that has since been replaced by another.
    const logPosition = await logPositionOf(db, studioId)
    if (logPosition === undefined || plan.input.logPosition > logPosition) return false
    const standing = await latestPlan(db, studioId)
    if (standing && !replaces(plan, standing)) return false
    const outcome = await insertPlan(db, studioId, plan)
    if (outcome === 'saved') await removeOldPlans(db, studioId, KEPT_PLANS)
    return outcome === 'saved'
  })
}

function replaces(plan: Plan, standing: Plan): boolean {
  if (plan.input.logPosition !== standing.input.logPosition) return plan.input.logPosition > standing.input.logPosition
  const isSameQuestion =
    plan.input.nowMin === standing.input.nowMin && plan.input.basePlanId === standing.input.basePlanId
  return !isSameQuestion || compareCosts(plan.costs, standing.costs) < 0
}
