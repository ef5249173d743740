import { dayAfter } from '#app/calendar/days.ts'
import { dayAt } from '#app/calendar/zone.ts'
import type { OrderRecord } from '#contract/order.ts'
import type { OrderPromise, Plan } from '#core/planning/plan.ts'
import { distinctReasons, type PlanningReason } from '#core/planning/reasons.ts'
import type { Minute } from '#core/time.ts'
import type { StudioAt } from '../plan/loadCase.ts'
import { HORIZON_DAYS } from '../studio/planningCaseOf.ts'
import { suppose } from './suppose.ts'

/** The plan that would be made of a studio, with some orders to be ready as soon as they can be. */
export type PlanOf = (studio: StudioAt, soonOrderIds?: readonly string[]) => Plan | Promise<Plan>

export type TriedDate = {
  readonly dueDate: string
  /** Odds that all of it is ready by then, of its worst line; 0: by this plan it is not. */
  readonly odds: number
  /** Orders of which less could be promised than without it. */
  readonly harmedOrderIds: readonly string[]
}

export type HonestDate = {
  /**
   * The earliest date tried that can be kept at the odds wanted and without harm to others; where none can, that with the
   * best odds; null: none up to the end of what is planned ahead.
   */
  readonly dueDate: string | null
  /** Whether that is at the odds wanted. */
  readonly isKept: boolean
  /** What can be said of its lines for that date. */
  readonly promises: readonly OrderPromise[]
  readonly tried: readonly TriedDate[]
  /** Why some of it could not be made at all within what is planned ahead; each once. */
  readonly reasons: readonly PlanningReason[]
}

/** Dates tried, in days from the first. Each is a plan made, so there are few, and the steps widen. */
const daysOn = [0, 2, 6, 13, 27]
/** So little that every other order goes before it. */
const LEAST_WEIGHT = 0.01

/**
 * The earliest honest date for an order, not before the one it is wished for. First it is planned after everything else
 * and as soon as that leaves room; the day after it is packed is then tried as its date, as it would be if it were entered.
 */
export async function honestDate(
  studio: StudioAt,
  nowMin: Minute,
  order: OrderRecord,
  planOf: PlanOf,
): Promise<HonestDate> {
  const { zone } = studio.tables.studio
  const tomorrow = dayAfter(dayAt(nowMin, zone), 1)
  const last = dayAfter(tomorrow, HORIZON_DAYS - 1)
  const withOrder = (changed: Partial<OrderRecord>) =>
    suppose(studio, [{ kind: 'order', order: { ...order, ...changed } }])
  const soonest = await planOf(withOrder({ dueDate: last, weight: LEAST_WEIGHT }), [order.id])
  const readyMin = readyMinOf(promisesOf(soonest, order))
  if (readyMin === null) {
    const leftOut = soonest.leftOut.filter(({ orderId }) => orderId === order.id)
    // A large order is divided into many runs, each left out for the same reason.
    return { ...noDate, reasons: distinctReasons(leftOut.flatMap(({ reasons }) => reasons)) }
  }
  const without = await planOf(suppose(studio, [{ kind: 'without-order', orderId: order.id }]))
  const first = [order.dueDate, tomorrow, dayAfter(dayAt(readyMin, zone), 1)].toSorted().at(-1)!
  const tried: TriedDate[] = []
  let best: HonestDate = noDate
  for (const dueDate of datesToTry(first, last)) {
    const plan = await planOf(withOrder({ dueDate }))
    const promises = promisesOf(plan, order)
    const odds = oddsOf(promises, order)
    const harmedOrderIds = harmedBy(without, plan)
    tried.push({ dueDate, odds, harmedOrderIds })
    if (harmedOrderIds.length > 0 || odds <= oddsOf(best.promises, order)) continue
    best = { dueDate, isKept: odds >= order.oddsWanted, promises, tried, reasons: [] }
    if (best.isKept) break
  }
  return { ...best, tried }
}

const noDate: HonestDate = { dueDate: null, isKept: false, promises: [], tried: [], reasons: [] }

/** Who wishes for a day beyond what is planned ahead can have it by the last that is. */
const datesToTry = (first: string, last: string): string[] =>
  first > last ? [last] : daysOn.map((days) => dayAfter(first, days)).filter((date) => date <= last)

const promisesOf = ({ promises }: Plan, { id }: OrderRecord): OrderPromise[] =>
  promises.filter(({ orderId }) => orderId === id)

/** Of its worst line; 0 where something is missing or late. */
const oddsOf = (promises: readonly OrderPromise[], { lines }: OrderRecord): number =>
  promises.length === lines.length && promises.every(({ wanted, onTime }) => onTime >= wanted)
    ? Math.min(...promises.map(({ odds }) => odds))
    : 0

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
