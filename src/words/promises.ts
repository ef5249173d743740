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
  readonly promises: readonly OrderPromise[]
  readonly tried: readonly {
    readonly dueDate: string
    readonly kept: boolean
    readonly harmedOrderIds: readonly string[]
  }[]
  /** Why some of it could not be made at all. */
  readonly reasons: readonly PlanningReason[]
}

type Orders = readonly { readonly id: string; readonly name: string }[]

export type PromiseSaid = { readonly answer: string; readonly sentences: readonly string[] }

export function promiseSaid(
  { dueDate, promises, tried, reasons }: Promised,
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
  const odds = Math.min(...promises.map((promise) => promise.odds))
  return {
    answer: answerOf(calendarDayText(dueDate, context), promises.length > 0 ? odds : null),
    sentences: [
      ...(ready.length > 0 ? [`Packed ${dateText(Math.max(...ready), context)}.`] : []),
      ...(cuts.length > 0 ? [`The last safe cut is ${momentText(Math.min(...cuts), context)}.`] : []),
      ...passedOver,
    ],
  }
}

/** At less than these odds a day is said, but not called one to promise. Our choice. */
const PROMISED_FROM = 0.75

function answerOf(day: string, odds: number | null): string {
  if (odds === null) return `${day} can be promised.`
  if (odds < PROMISED_FROM) return `${day} is the soonest, but only at odds of ${oddsText(odds)}.`
  return `${day} can be promised: ${oddsText(odds)}.`
}

function whyNot({ kept, harmedOrderIds }: Promised['tried'][number], orders: Orders): string {
  const harmed = harmedOrderIds.map((id) => `“${orders.find((order) => order.id === id)?.name ?? id}”`)
  const causes = [
    ...(kept ? [] : ['not all of it would be ready at these odds']),
    ...(harmed.length > 0 ? [`${harmed.join(', ')} would have less on time`] : []),
  ]
  return causes.join(', and ')
}
