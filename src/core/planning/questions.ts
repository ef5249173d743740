/** Questions that a potter asks of the plan: what date for this, what if that. Each is a plan of its own, never saved. */
import type { Order } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { Plan, PlanningCase, RunTask } from './plan.ts'
import { makePlan } from './makePlan.ts'
import type { PlanningReason } from './reasons.ts'

/** What is asked for: so many of a design, in a glaze or in any. */
export type Wish = { readonly designId: string; readonly glazeId: string | null; readonly count: number }

export type EarliestDate =
  | {
      readonly kind: 'date'
      /** All of it packed. */
      readonly readyMin: Minute
      readonly odds: number
      /** Cut no later than this to keep that date; null when nothing is to be cut. */
      readonly lastSafeCutMin: Minute | null
      /** Lines of other orders that would have fewer pieces on time: none, if the date is an honest one. */
      readonly disturbed: readonly string[]
    }
  | { readonly kind: 'none'; readonly reasons: readonly PlanningReason[] }

const WISH_ID = 'wish'

/**
 * The earliest date at which a wish could be packed without disturbing what is ordered: it is planned after everything
 * else, in the time and kiln room that is left.
 * @param current the plan as it stands, to tell what is disturbed
 */
export function earliestDate(planningCase: PlanningCase, current: Plan, wishes: readonly Wish[]): EarliestDate {
  const order: Order = {
    id: WISH_ID,
    kind: 'customer',
    name: WISH_ID,
    packedByMin: planningCase.horizonMin,
    weight: 0.01,
    oddsWanted: 0.9,
    lines: wishes.map((wish, i) => ({ id: `${WISH_ID}-${i}`, ...wish })),
  }
  const { studio } = planningCase
  const asked = { ...planningCase, studio: { ...studio, orders: [...studio.orders, order] }, basePlan: current }
  const plan = makePlan(asked, { soonOrderIds: [WISH_ID] })
  const lines = plan.promises.filter(({ orderId }) => orderId === WISH_ID)
  const leftOut = plan.leftOut.filter(({ orderId }) => orderId === WISH_ID)
  const ready = lines.map(({ readyMin }) => readyMin)
  if (leftOut.length > 0 || ready.some((minute) => minute === null))
    return { kind: 'none', reasons: leftOut.flatMap(({ reasons }) => reasons) }
  const before = new Map(current.promises.map(({ orderLineId, onTime }) => [orderLineId, onTime]))
  const cuts = lines.flatMap(({ lastSafeCutMin }) => lastSafeCutMin ?? [])
  return {
    kind: 'date',
    readyMin: Math.max(...ready.map((minute) => minute!)),
    odds: lines.reduce((odds, line) => odds * line.odds, 1),
    lastSafeCutMin: cuts.length > 0 ? Math.min(...cuts) : null,
    disturbed: plan.promises
      .filter(({ orderLineId, onTime }) => onTime < (before.get(orderLineId) ?? 0))
      .map(({ orderLineId }) => orderLineId),
  }
}

/** What one plan has otherwise than another. */
export type PlanDifference = {
  readonly moved: readonly { readonly before: RunTask; readonly after: RunTask }[]
  readonly gone: readonly RunTask[]
  readonly added: readonly RunTask[]
  /** Lines whose count on time or whose ready date changed. */
  readonly promises: readonly {
    readonly orderId: string
    readonly orderLineId: string
    readonly onTimeBefore: number
    readonly onTimeAfter: number
    readonly readyBeforeMin: Minute | null
    readonly readyAfterMin: Minute | null
  }[]
}

export function planDifference(before: Plan, after: Plan): PlanDifference {
  const steps = (plan: Plan) => new Map(plan.tasks.filter(({ kind }) => kind === 'step').map((task) => [task.id, task]))
  const old = steps(before)
  const now = steps(after)
  const promisesNow = new Map(after.promises.map((promise) => [promise.orderLineId, promise]))
  return {
    moved: [...old.values()].flatMap((task) => {
      const other = now.get(task.id)
      return other && (other.startMin !== task.startMin || other.makerId !== task.makerId)
        ? [{ before: task, after: other }]
        : []
    }),
    gone: [...old.values()].filter(({ id }) => !now.has(id)),
    added: [...now.values()].filter(({ id }) => !old.has(id)),
    promises: before.promises.flatMap(({ orderId, orderLineId, onTime, readyMin }) => {
      const other = promisesNow.get(orderLineId)
      if (!other || (other.onTime === onTime && other.readyMin === readyMin)) return []
      return [
        {
          orderId,
          orderLineId,
          onTimeBefore: onTime,
          onTimeAfter: other.onTime,
          readyBeforeMin: readyMin,
          readyAfterMin: other.readyMin,
        },
      ]
    }),
  }
}
