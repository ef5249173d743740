/** What must be ready, how many, by when; what stands on the shelf; what the potter has fixed. */
import type { z } from 'zod'
import type { Order, OrderKind } from '#core/studio/studio.ts'
import { id, listOf, oneOf, quantity, record, share, whole, words } from './fields.ts'
import { addFaults } from './fault.ts'
import type { Fault } from './fault.ts'
import type { Frozen } from './frozen.ts'
import { day, instant } from './time.ts'

export const orderKinds = ['customer', 'market', 'stock'] as const satisfies readonly OrderKind[]

export const orderLine = record('a line of an order', {
  id: id('The id of the line'),
  designId: id('The design of the line'),
  glazeId: id('The glaze of the line').nullable(),
  count: whole('The number of pieces', '', 1, 100_000),
})

/** A due date may lie in the past: it is a fact. It must be packed by the end of the day before. */
export const orderRecord = record('an order', {
  id: id('The id of the order'),
  kind: oneOf('The kind of order', orderKinds),
  name: words('The name of the order'),
  dueDate: day('The day the order is due'),
  weight: quantity('The weight of the order', '', 0.01, 100),
  oddsWanted: share('The odds wanted', 0.5, 0.99),
  lines: listOf('lines', orderLine, 1, 500),
}).superRefine((order, context) => addFaults(context, repeatedLines(order)))

function repeatedLines({ name, lines }: Pick<Order, 'name' | 'lines'>): Fault[] {
  const ids = lines.map((line) => line.id)
  return ids.flatMap((lineId, index) =>
    ids.indexOf(lineId) < index
      ? [{ path: ['lines', index, 'id'], message: `“${name}” has two lines with the id “${lineId}”; ids must differ` }]
      : [],
  )
}

export const stockRecord = record('a stock of ware', {
  id: id('The id of the stock'),
  designId: id('The design of the stock'),
  stage: oneOf('The stage of the stock', ['bisque', 'finished']),
  glazeId: id('The glaze of the stock').nullable(),
  count: whole('The number of pieces', '', 0, 100_000),
}).refine(({ stage, glazeId }) => stage === 'finished' || glazeId === null, {
  path: ['glazeId'],
  error: 'Bisque has no glaze yet: its glaze must be null',
})

export const pinRecord = record('a pin', {
  id: id('The id of the pin'),
  runId: id('The run of the pin'),
  stepId: id('The step of the pin'),
  startsAt: instant('The time of the pin'),
  makerId: id('The maker of the pin').nullable(),
})

export type OrderRecord = Frozen<z.infer<typeof orderRecord>>
export type StockRecord = Frozen<z.infer<typeof stockRecord>>
export type PinRecord = Frozen<z.infer<typeof pinRecord>>
