/** Ware that goes out for an order: what stands ready, and what was typed. */
import type { OrderRecord } from '#contract/order.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { Plan } from '#core/planning/plan.ts'
import { typedCount } from '#words/typed.ts'

type Line = OrderRecord['lines'][number]

export type Ready = {
  readonly line: Line
  /** Ordered less delivered. */
  readonly wanted: number
  /** Finished on the shelf, by glaze: those that the line asks for, or any. */
  readonly onShelf: readonly { readonly glazeId: string | null; readonly count: number }[]
}

/** Lines of which something is still wanted and something stands on the shelf. */
export function readyLines(order: OrderRecord, plan: Plan, { shelf }: Pick<LogState, 'shelf'>): Ready[] {
  return order.lines.flatMap((line) => {
    const wanted = plan.promises.find(({ orderLineId }) => orderLineId === line.id)?.wanted ?? line.count
    const onShelf = shelf
      .filter(({ stage, designId }) => stage === 'finished' && designId === line.designId)
      .filter(({ glazeId }) => line.glazeId === null || line.glazeId === glazeId)
      .map(({ glazeId, count }) => ({ glazeId, count }))
    return wanted > 0 && onShelf.length > 0 ? [{ line, wanted, onShelf }] : []
  })
}

/** @returns what to say beside the field; undefined: it can be delivered */
export function deliveryFault(text: string, { wanted }: Ready, onShelf: number): string | undefined {
  const count = typedCount(text)
  if (!(count >= 1)) return 'Say how many go out, from 1 up.'
  if (count > onShelf) return `Only ${onShelf} stand on the shelf. Log what else is finished first.`
  if (count > wanted) return `Only ${wanted} are still wanted.`
  return undefined
}
