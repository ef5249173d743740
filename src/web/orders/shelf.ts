/** What stands on the shelf, and how a count by hand is kept. */
import type { StockRecord } from '#contract/order.ts'
import type { ShelfCount } from '#core/logbook/state.ts'
import { typedCount } from '#words/typed.ts'

export type Pile = Pick<ShelfCount, 'designId' | 'stage' | 'glazeId' | 'count'>
export type Counted = { readonly stock: StockRecord } | { readonly fault: string }

const MOST_PIECES = 100_000

/**
 * The stock that the logbook begins with, so that the shelf holds what was counted: what came and went since stays told.
 * Seconds are not stock; they are only what the logbook says.
 * @param newId of a record, where there is none for such ware yet
 */
export function countedAgain(text: string, pile: Pile, stock: readonly StockRecord[], newId: string): Counted {
  const counted = typedCount(text)
  if (!(counted <= MOST_PIECES)) return { fault: 'Say how many stand there, 0 if none.' }
  const { designId, stage, glazeId } = pile
  if (stage === 'second') return { fault: 'Seconds are counted by the logbook alone.' }
  const known = stock.find(
    (record) => record.designId === designId && record.stage === stage && record.glazeId === glazeId,
  )
  const count = (known?.count ?? 0) + counted - pile.count
  if (count < 0)
    return {
      fault: `The logbook tells of ${pile.count} that came and did not go. Log where the others went: delivered, lost or second.`,
    }
  return { stock: { id: known?.id ?? newId, designId, stage, glazeId, count } }
}
