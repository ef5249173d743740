/** The answer to "when could it be ready?", as sentences. */
import type { OrderPromise } from '#core/planning/plan.ts'
import type { PlanningReason } from '#core/planning/reasons.ts'
import { oddsText } from './amounts.ts'
import type { Context } from './context.ts'
import { reasonText } from './reasons.ts'
import { calendarDayText, dateText, momentText } from './times.ts'

export type Promised = {
  /** null: no day up to the end of what is planned ahead. */
  readonly dueDate: string | null
  /** At the odds wanted. */
  readonly isKept: boolean
  readonly promises: readonly OrderPromise[]
  readonly tried: readonly {
    readonly dueDate: string
    readonly odds: number
    readonly harmedOrderIds: readonly string[]
  }[]
  /** Why some of it could not be made at all. */
  readonly reasons: readonly PlanningReason[]
}

type Orders = readonly { readonly id: string; readonly name: string }[]

export type PromiseSaid = { readonly answer: string; readonly sentences: readonly string[] }

export function promiseSaid(
  { dueDate, isKept, promises, tried, reasons }: Promised,
  orders: Orders,
  context: Context,
): PromiseSaid {
  const passedOver = tried
    .filter((attempt) => attempt.dueDate !== dueDate)
    .map((attempt) => `${calendarDayText(attempt.dueDate, context)}: ${whyNot(attempt, orders)}.`)
  if (dueDate === null)
    return {
      answer: 'No day that is planned ahead could be promised. Ask for fewer, for less certainty, or for a later day.',
      sentences: [...passedOver, ...reasons.map((reason) => reasonText(reason, context))],
    }
  const ready = promises.flatMap(({ readyMin }) => readyMin ?? [])
  const cuts = promises.flatMap(({ lastSafeCutMin }) => lastSafeCutMin ?? [])
  const day = calendarDayText(dueDate, context)
  const odds = oddsText(Math.min(1, ...promises.map((promise) => promise.odds)))
  return {
    answer: isKept ? `${day} can be promised: ${odds}.` : `${day} is the surest there is, but only at odds of ${odds}.`,
    sentences: [
      ...(ready.length > 0 ? [`Packed ${dateText(Math.max(...ready), context)}.`] : []),
      ...(cuts.length > 0 ? [`The last safe cut is ${momentText(Math.min(...cuts), context)}.`] : []),
      ...passedOver,
    ],
  }
}

function whyNot({ odds, harmedOrderIds }: Promised['tried'][number], orders: Orders): string {
  const harmed = harmedOrderIds.map((id) => `“${orders.find((order) => order.id === id)?.name ?? id}”`)
  return [
    odds === 0 ? 'not all of it would be ready' : `it would be ready at odds of ${oddsText(odds)}`,
    ...(harmed.length > 0 ? [`${harmed.join(', ')} would have less on time`] : []),
  ].join(', and ')
}
