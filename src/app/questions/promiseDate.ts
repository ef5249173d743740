import { dayAfter } from '#app/calendar/days.ts'
import { dayAt } from '#app/calendar/zone.ts'
import type { OrderRecord } from '#contract/order.ts'
import type { OrderPromise, Plan } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Db } from '#store/db.ts'
import type { Planner } from '../plan/planner.ts'
import { HORIZON_DAYS } from '../studio/planningCaseOf.ts'
import { suppose } from './suppose.ts'
import { openTrial } from './tryOut.ts'

/** Each date tried is a plan made, so there are few; each lies further on than the one before by more. */
const stepsDays = [0, 2, 4, 7, 14]

export type TriedDate = {
  readonly dueDate: string
  /** Whether all of it is ready by then at the odds wanted. */
  readonly kept: boolean
  /** Orders of which less could be promised than without it. */
  readonly harmedOrderIds: readonly string[]
}

export type PromisedDate = {
  /** The earliest date tried that can be kept without harm to others; null: none up to the end of what is planned ahead. */
  readonly dueDate: string | null
  /** What can be said of its lines for that date. */
  readonly promises: readonly OrderPromise[]
  readonly tried: readonly TriedDate[]
}

/**
 * The earliest honest date for an order, not before the one it is wished for. First the plan is asked to have it by that
 * day; when it is ready in that plan is the next day tried.
 * @throws Refusal as `Trial.planOf`
 */
export async function promiseDate(
  db: Db,
  planner: Planner,
  studioId: string,
  nowMin: Minute,
  order: OrderRecord,
): Promise<PromisedDate> {
  const { studio, planOf } = await openTrial(db, planner, studioId, nowMin)
  const { zone } = studio.tables.studio
  const last = dayAfter(dayAt(nowMin, zone), HORIZON_DAYS)
  const without = await planOf(suppose(studio, [{ kind: 'without-order', orderId: order.id }]))
  const tried: TriedDate[] = []
  let dueDate = laterOf(order.dueDate, dayAfter(dayAt(nowMin, zone), 1))
  for (const stepDays of stepsDays) {
    dueDate = dayAfter(dueDate, stepDays)
    if (dueDate > last) break
    const plan = await planOf(suppose(studio, [{ kind: 'order', order: { ...order, dueDate } }]))
    const promises = plan.promises.filter(({ orderId }) => orderId === order.id)
    const attempt = { dueDate, kept: isKept(promises, order), harmedOrderIds: harmedBy(without, plan) }
    tried.push(attempt)
    if (attempt.kept && attempt.harmedOrderIds.length === 0) return { dueDate, promises, tried }
    const readyMin = readyMinOf(promises)
    // Due the day after the one on which it is packed.
    if (readyMin !== null) dueDate = laterOf(dueDate, dayAfter(dayAt(readyMin, zone), 1))
  }
  return { dueDate: null, promises: [], tried }
}

const laterOf = (a: string, b: string): string => (a > b ? a : b)

const isKept = (promises: readonly OrderPromise[], { lines, oddsWanted }: OrderRecord): boolean =>
  promises.length === lines.length &&
  promises.every(({ wanted, onTime, odds }) => onTime >= wanted && odds >= oddsWanted)

/** When the last of it is ready; null if something of it is nowhere in the plan. */
function readyMinOf(promises: readonly OrderPromise[]): Minute | null {
  const times = promises.map(({ wanted, onTime, late, readyMin }) => (onTime + late >= wanted ? readyMin : null))
  return times.every((time) => time !== null) && times.length > 0 ? Math.max(...times) : null
}

function harmedBy(before: Plan, after: Plan): string[] {
  const now = new Map(after.promises.map((promise) => [promise.orderLineId, promise]))
  const harmed = before.promises.filter(({ orderLineId, onTime }) => (now.get(orderLineId)?.onTime ?? 0) < onTime)
  return [...new Set(harmed.map(({ orderId }) => orderId))]
}
