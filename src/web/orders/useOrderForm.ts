/** An order on its way in: asked about, entered or amended; whatever is refused stays as it was typed. */
import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { OrderRecord } from '#contract/order.ts'
import type { Context } from '#words/context.ts'
import { dayKey } from '#words/times.ts'
import { answerOf, client, Unmet } from '../data/client.ts'
import { newId } from '../data/device.ts'
import { useKeepOrder } from '../data/useKeep.ts'
import { orderDays } from './dates.ts'
import { type Draft, type DraftFaults, draftFaults, faultsOf, isFaultless, noFaults, orderOf } from './draft.ts'
import type { Promised } from '#words/promises.ts'

type Given = {
  readonly draft: Draft
  /** What it was; undefined for a new one. */
  readonly before?: OrderRecord
  readonly context: Context
  readonly onKept: (order: OrderRecord) => void
}

export function useOrderForm({ draft, before, context, onKept }: Given) {
  const [faults, setFaults] = useState<DraftFaults>(noFaults)
  const keeping = useKeepOrder()
  const asking = useMutation({ mutationFn: ask })
  const today = dayKey(context.nowMin, context)
  // What was due before may stay so: it is a fact.
  const days = before?.dueDate === draft.dueDate ? undefined : orderDays(today)
  const idOf = () => before?.id ?? newId('order')
  const refuse = (error: unknown) => {
    if (error instanceof Unmet) setFaults(faultsOf(error.problem, draft))
    else setFaults({ lines: {}, whole: 'The studio’s computer cannot be reached. What you typed stays here.' })
  }
  return {
    faults,
    isKeeping: keeping.isPending,
    isAsking: asking.isPending,
    promised: asking.data,
    /** The answer is of what was typed then. */
    forgetAnswer: () => asking.reset(),
    keep: () => {
      const found = draftFaults(draft, days)
      setFaults(found)
      if (!isFaultless(found)) return
      const order = orderOf(draft, idOf(), before)
      keeping.mutate(order, { onSuccess: () => onKept(order), onError: refuse })
    },
    /** When could it be had? A date and a name need not be there yet. */
    ask: () => {
      const wished = {
        ...draft,
        name: draft.name.trim() || 'This order',
        dueDate: draft.dueDate || orderDays(today).first,
      }
      const found = draftFaults(wished, days)
      setFaults(found)
      if (isFaultless(found)) asking.mutate(orderOf(wished, idOf(), before), { onError: refuse })
    },
  }
}

const ask = async (order: OrderRecord): Promise<Promised> =>
  (await answerOf(client.promise.$post({ json: { order: order as never } }))) as unknown as Promised
