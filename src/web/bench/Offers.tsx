import { memo, useState } from 'react'
import type { Offer } from '#core/planning/plan.ts'
import { momentText } from '#words/times.ts'
import { costTexts } from '#words/trade.ts'
import { toast } from '#web/app/toasts.ts'
import { newId } from '../data/device.ts'
import { useKeepPin, useRemovePin } from '../data/useKeep.ts'
import type { BenchView } from './rows.ts'

/** Today and tomorrow stay put; what would be better is offered. */
export const Offers = memo(function Offers({ view }: { readonly view: BenchView }) {
  const [kept, setKept] = useState<readonly string[]>([])
  const offers = view.plan.offers.filter(({ id }) => !kept.includes(id))
  if (offers.length === 0) return null
  return (
    <section className="side-board">
      <h2>It could go better</h2>
      <p className="quiet small">Today and tomorrow stay as they are unless you say so.</p>
      <ul>
        {offers.map((offer) => (
          <OfferRow key={offer.id} offer={offer} view={view} keep={() => setKept([...kept, offer.id])} />
        ))}
      </ul>
    </section>
  )
})

type RowProps = { readonly offer: Offer; readonly view: BenchView; readonly keep: () => void }

function OfferRow({ offer, view, keep }: RowProps) {
  const pin = useKeepPin()
  const free = useRemovePin()
  const run = view.plan.runs.find(({ id }) => id === offer.runId)
  const design = view.studio.designs.find(({ id }) => id === run?.designId)
  const name = design
    ? `${design.steps.find(({ id }) => id === offer.stepId)?.name ?? 'Step'}, ${design.name}`
    : 'Kiln work'
  const gains = offer.gains.map(({ cost }) => costTexts[cost]).join(', ')
  const { runId, stepId, makerId, toMin } = offer
  const take = () => {
    if (!runId || !stepId) return
    const id = newId('pin')
    const said = `${name} moves to ${momentText(toMin, view.context)}`
    pin.mutate(
      { id, runId, stepId, startsAt: new Date(toMin * 60_000).toISOString(), makerId },
      {
        onSuccess: () => {
          toast({ said, undo: () => free.mutate(id) })
          keep()
        },
      },
    )
  }
  return (
    <li className="side-row offer">
      <span>
        <strong>{name}</strong>
        <span className="small block">
          {momentText(offer.fromMin, view.context)} → {momentText(toMin, view.context)}
        </span>
        {gains && <span className="quiet small block">fewer: {gains}</span>}
      </span>
      <span className="taps">
        <button type="button" className="button" onClick={keep}>
          Keep
        </button>
        {runId && stepId && (
          <button type="button" className="button main" onClick={take}>
            Take
          </button>
        )}
      </span>
    </li>
  )
}
