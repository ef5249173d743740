/** What may be asked of the plan without changing anything. */
import { z } from 'zod'
import { entryRecord } from './entry.ts'
import type { EntryRecord } from './entry.ts'
import { id, kindsOf, listOf, record } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { orderRecord, pinRecord } from './order.ts'

const changeKinds = ['order', 'without-order', 'pin', 'without-pin', 'entry'] as const
const change = <const Kind extends (typeof changeKinds)[number], Shape extends z.ZodRawShape>(
  kind: Kind,
  shape: Shape,
) => record('a change', { kind: z.literal(kind), ...shape })

/** Thirty kinds of entry, which the compiler need not spell out here. */
const entry: z.ZodType<EntryRecord> = entryRecord

/** An order more, or another in its place; one less; a step fixed or freed; something that might happen (a session missed, a cover changed). */
export const supposedChange = kindsOf('A change', 'kind', changeKinds, [
  change('order', { order: orderRecord }),
  change('without-order', { orderId: id('The order') }),
  change('pin', { pin: pinRecord }),
  change('without-pin', { pinId: id('The pin') }),
  change('entry', { entry }),
])

export const whatIfQuestion = record('a question', { changes: listOf('changes', supposedChange, 1, 50) })

/** `dueDate` of the order is when it is wished for; the answer says when it can be had. */
export const promiseQuestion = record('a question', { order: orderRecord })

export type SupposedChange = Frozen<z.infer<typeof supposedChange>>
