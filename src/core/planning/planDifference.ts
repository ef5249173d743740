import type { Minute } from '#core/time.ts'
import type { Plan, RunTask } from './plan.ts'

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
