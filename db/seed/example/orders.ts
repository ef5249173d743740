/** What the example owes: customers over six weeks, one market day, and a shop shelf to keep. */
import type { OrderRecord, StockRecord } from '#contract/order.ts'
import type { ExampleClock } from './clock.ts'

type Line = readonly [designId: string, count: number, glazeId: string | null]

const order = (
  id: string,
  kind: OrderRecord['kind'],
  name: string,
  dueDate: string,
  lines: readonly Line[],
): OrderRecord => ({
  id,
  kind,
  name,
  dueDate,
  weight: kind === 'stock' ? 0.5 : 1,
  oddsWanted: kind === 'customer' ? 0.9 : 0.8,
  lines: lines.map(([designId, count, glazeId], index) => ({ id: `${id}-${index + 1}`, designId, glazeId, count })),
})

export const exampleOrders = (clock: ExampleClock): OrderRecord[] => [
  order('cafe-plates', 'customer', 'Corner café, plates', clock.date(-9), [['plate', 4, 'milk']]),
  order('mill-mugs', 'customer', 'Mill House, mugs', clock.date(12), [['mug', 9, 'moss']]),
  order('bath-shop', 'customer', 'Bath shop', clock.date(14), [['soap-dish', 10, 'milk']]),
  order('cafe-trays', 'customer', 'Corner café, trays', clock.date(17), [['tray', 6, 'milk']]),
  order('garden', 'customer', 'Garden room, planters', clock.date(26), [['planter', 5, 'slate']]),
  order('lena', 'customer', 'Lena, dinner for six', clock.date(28), [
    ['plate', 6, 'moss'],
    ['vase', 2, 'milk'],
  ]),
  order('market', 'market', 'Yard market', clock.nextWeekday(6, 31), [
    ['mug', 12, null],
    ['soap-dish', 12, null],
    ['vase', 6, null],
    ['tray', 6, null],
    ['plate', 6, null],
  ]),
  order('hotel', 'customer', 'Small hotel, trays', clock.date(39), [['tray', 8, 'slate']]),
  order('garden-2', 'customer', 'Garden room, second order', clock.date(41), [
    ['planter', 4, 'milk'],
    ['vase', 4, 'slate'],
  ]),
  order('shop', 'stock', 'Shop shelf', clock.date(42), [
    ['mug', 6, null],
    ['soap-dish', 8, null],
    ['tray', 4, null],
  ]),
]

/** On the shelf when the logbook began. Bisque belongs to nobody yet. */
export const exampleStock: readonly StockRecord[] = [
  { id: 'plates-milk', designId: 'plate', stage: 'finished', glazeId: 'milk', count: 6 },
  { id: 'vases-bisque', designId: 'vase', stage: 'bisque', glazeId: null, count: 3 },
]
