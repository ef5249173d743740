import type { OrderRecord } from '#contract/order.ts'
import type { Minute } from '#core/time.ts'
import type { Db } from '#store/db.ts'
import type { Planner } from '../plan/planner.ts'
import { type HonestDate, honestDate } from './honestDate.ts'
import { openTrial } from './tryOut.ts'

/**
 * The earliest honest date for an order in the studio as it is now; nothing is kept.
 * @throws Refusal as `Trial.planOf`
 */
export async function promiseDate(
  db: Db,
  planner: Planner,
  studioId: string,
  nowMin: Minute,
  order: OrderRecord,
): Promise<HonestDate> {
  const { studio, planOf } = await openTrial(db, planner, studioId, nowMin)
  return honestDate(studio, nowMin, order, planOf)
}
