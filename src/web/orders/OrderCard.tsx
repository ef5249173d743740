import { useState } from 'react'
import type { OrderRecord } from '#contract/order.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { Plan } from '#core/planning/plan.ts'
import { oddsText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { calendarDayText, capital } from '#words/times.ts'
import { toast } from '#web/app/toasts.ts'
import type { Studio } from '../data/queries.ts'
import { useKeepOrder, useRemoveOrder } from '../data/useKeep.ts'
import { dayPlus } from './dates.ts'
import { Deliver } from './Deliver.tsx'
import { readyLines } from './delivering.ts'
import { type Draft, draftOf } from './draft.ts'
import { linesSaid } from './lines.ts'
import { OrderForm } from './OrderForm.tsx'

type Props = {
  readonly order: OrderRecord
  /** null before the first. */
  readonly plan: Plan | null
  readonly state: LogState | undefined
  readonly studio: Studio
  readonly context: Context
}

const kindTexts = { customer: 'Due', market: 'Market day', stock: 'Stock to keep, by' } as const

/** An order, what can be promised of it, and what can be done about it. */
export function OrderCard({ order, plan, state, studio, context }: Props) {
  const [draft, setDraft] = useState<Draft | null>(null)
  const keep = useKeepOrder()
  const remove = useRemoveOrder()
  const withdraw = () =>
    remove.mutate(order.id, {
      onSuccess: () => toast({ said: `Withdrawn: ${order.name}`, undo: () => keep.mutate(order) }),
    })
  const amended = () => {
    setDraft(null)
    toast({ said: `Amended: ${order.name}`, undo: () => keep.mutate(order) })
  }
  const ready = plan && state ? readyLines(order, plan, state) : []
  if (draft)
    return (
      <section className="order" aria-label={order.name}>
        <OrderForm
          heading={`Amend ${order.name}`}
          keepName="Keep the changes"
          {...{ draft, studio, context }}
          before={order}
          change={setDraft}
          onKept={amended}
          onLeave={() => setDraft(null)}
        />
      </section>
    )
  return (
    <section className="order" aria-label={order.name}>
      <h2>{order.name}</h2>
      <p className="quiet">
        {kindTexts[order.kind]} {calendarDayText(order.dueDate, context)}, to be packed by{' '}
        {calendarDayText(dayPlus(order.dueDate, -1), context)}; {oddsText(order.oddsWanted)} wanted
      </p>
      {plan &&
        linesSaid(order, plan, studio, context).map(({ id, what, standing, sentences, waits }) => {
          const pile = ready.find(({ line }) => line.id === id)
          return (
            <div key={id} className="order-line">
              <p>
                {what} · <span className={`standing ${standing.split(' ')[0]}`}>{capital(standing)}</span>
              </p>
              <p className="quiet">{sentences.join(' ')}</p>
              {waits.length > 0 && <Waits sentences={waits} />}
              {pile && <Deliver order={order} ready={pile} studio={studio} />}
            </div>
          )
        })}
      <div className="order-taps">
        <button
          type="button"
          className="button"
          onClick={() => setDraft(draftOf(order))}
          aria-label={`Amend ${order.name}`}
        >
          Amend
        </button>
        <button type="button" className="button" onClick={withdraw} aria-label={`Withdraw ${order.name}`}>
          Withdraw
        </button>
      </div>
    </section>
  )
}

const Waits = ({ sentences }: { readonly sentences: readonly string[] }) => (
  <details>
    <summary>What it waits for</summary>
    <ul>
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  </details>
)
