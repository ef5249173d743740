import type { SupposedChange } from '#contract/whatIf.ts'
import type { StudioAt } from '../plan/loadCase.ts'

/** The studio as it would be. What is not there cannot go, and is then no change. */
export const suppose = (studio: StudioAt, changes: readonly SupposedChange[]): StudioAt =>
  changes.reduce(supposeOne, studio)

function supposeOne({ tables, entries, logPosition }: StudioAt, change: SupposedChange): StudioAt {
  const withTables = (changed: Partial<StudioAt['tables']>): StudioAt => ({
    tables: { ...tables, ...changed },
    entries,
    logPosition,
  })
  switch (change.kind) {
    case 'order':
      return withTables({ orders: [...tables.orders.filter(({ id }) => id !== change.order.id), change.order] })
    case 'without-order':
      return withTables({ orders: tables.orders.filter(({ id }) => id !== change.orderId) })
    case 'pin':
      return withTables({ pins: [...tables.pins.filter(({ id }) => id !== change.pin.id), change.pin] })
    case 'without-pin':
      return withTables({ pins: tables.pins.filter(({ id }) => id !== change.pinId) })
    case 'entry':
      return { tables, entries: [...entries, change.entry], logPosition }
  }
}
