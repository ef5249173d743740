/** Orders as the plan can keep them, line by line. */
import type { OrderRecord } from '#contract/order.ts'
import type { OrderPromise, Plan } from '#core/planning/plan.ts'
import { countText, oddsText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { reasonText } from '#words/reasons.ts'
import { dateText, momentText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'
import { waitingFor } from './waiting.ts'

/** `doubtful`: planned for the date, at less than the odds wanted. */
export type Standing = 'kept' | 'doubtful' | 'late' | 'left out' | 'delivered'

export type LineSaid = {
  readonly id: string
  readonly what: string
  readonly standing: Standing
  /** When it is ready and at what odds, the last safe cut, what is left out and why. */
  readonly sentences: readonly string[]
  /** What it waits for: a sentence for each run. */
  readonly waits: readonly string[]
}

/** What can be said of every line of an order. */
export function linesSaid(order: OrderRecord, plan: Plan, studio: Studio, context: Context): LineSaid[] {
  return order.lines.map((line) => {
    const name = studio.designs.find(({ id }) => id === line.designId)?.name ?? line.designId
    const glaze = studio.glazes.find(({ id }) => id === line.glazeId)?.name
    const promise = plan.promises.find(({ orderLineId }) => orderLineId === line.id)
    const left = plan.leftOut.filter(({ orderLineId }) => orderLineId === line.id)
    return {
      id: line.id,
      what: `${countText(line.count, name)}${glaze ? `, ${glaze}` : ''}`,
      standing: standingOf(promise, left.length > 0, order.oddsWanted),
      sentences: [
        ...promiseSentences(promise, context),
        ...left.flatMap(({ count, reasons, remedies }) => [
          `${count} left out. ${reasons.map((reason) => reasonText(reason, context)).join(' ')}`,
          ...remedies.map((remedy) => reasonText(remedy, context)),
        ]),
      ],
      waits: waitingFor(line, plan, studio, context),
    }
  })
}

function standingOf(promise: OrderPromise | undefined, isLeftOut: boolean, oddsWanted: number): Standing {
  if (isLeftOut) return 'left out'
  if (!promise || promise.wanted === 0) return 'delivered'
  if (promise.late > 0) return 'late'
  return promise.odds < oddsWanted - 1e-9 ? 'doubtful' : 'kept'
}

function promiseSentences(promise: OrderPromise | undefined, context: Context): string[] {
  if (!promise || promise.wanted === 0) return []
  const { onTime, late, wanted, readyMin, odds, lastSafeCutMin } = promise
  return [
    ...(readyMin === null ? [] : [`Packed ${dateText(readyMin, context)}.`]),
    ...(onTime > 0 ? [`${onTime} of ${wanted} by the date, at odds of ${oddsText(odds)}.`] : []),
    ...(late > 0 ? [`${late} of ${wanted} after the date.`] : []),
    ...(lastSafeCutMin === null ? [] : [`The last safe cut is ${momentText(lastSafeCutMin, context)}.`]),
  ]
}
