import { type SubmitEvent, useState } from 'react'
import type { LogState } from '#core/logbook/state.ts'
import { countText } from '#words/amounts.ts'
import { toast } from '#web/app/toasts.ts'
import { newId } from '../data/device.ts'
import type { Studio } from '../data/queries.ts'
import { useKeepStock } from '../data/useKeep.ts'
import { AddWare } from './AddWare.tsx'
import { CountField } from './fields.tsx'
import { countedAgain, type Pile } from './shelf.ts'

type Props = { readonly state: LogState; readonly studio: Studio }

const stageTexts = { finished: 'finished', bisque: 'bisque', second: 'seconds' } as const

/** Ware that belongs to no order yet; it can be counted again. */
export function Shelf({ state, studio }: Props) {
  const glazeOf = (glazeId: string | null) => studio.glazes.find(({ id }) => id === glazeId)?.name
  return (
    <section className="shelf" aria-label="On the shelf">
      <h2>On the shelf</h2>
      {state.shelf.length === 0 && <p className="quiet">Nothing stands there.</p>}
      <ul>
        {state.shelf.map((pile) => {
          const { designId, stage, glazeId, count } = pile
          const name = studio.designs.find(({ id }) => id === designId)?.name ?? designId
          const what = [stageTexts[stage], glazeOf(glazeId)].filter(Boolean).join(', ')
          return (
            <li key={`${designId} ${stage} ${glazeId} ${count}`} className="shelf-pile">
              <span>
                {countText(count, name)} <span className="quiet">({what})</span>
              </span>
              {stage !== 'second' && <CountAgain pile={pile} name={`${name}, ${what}`} studio={studio} />}
            </li>
          )
        })}
      </ul>
      <AddWare state={state} studio={studio} />
    </section>
  )
}

type CountProps = { readonly pile: Pile; readonly name: string; readonly studio: Studio }

function CountAgain({ pile, name, studio }: CountProps) {
  const keep = useKeepStock()
  const [text, setText] = useState<string | null>(null)
  const [fault, setFault] = useState<string>()
  if (text === null)
    return (
      <button
        type="button"
        className="button"
        onClick={() => setText(String(pile.count))}
        aria-label={`Count again: ${name}`}
      >
        Count again
      </button>
    )
  const enter = (event: SubmitEvent) => {
    event.preventDefault()
    const counted = countedAgain(text, pile, studio.stock, newId('stock'))
    setFault('fault' in counted ? counted.fault : undefined)
    if ('fault' in counted) return
    const before = studio.stock.find(({ id }) => id === counted.stock.id)
    keep.mutate(counted.stock, {
      onSuccess: () => {
        const undo = () => keep.mutate(before ?? { ...counted.stock, count: 0 })
        toast({ said: `Counted: ${text} ${name}`, undo })
        setText(null)
      },
    })
  }
  return (
    <form className="order-deliver" noValidate onSubmit={enter}>
      <CountField label={`Standing there: ${name}`} value={text} fault={fault} change={setText} />
      <button type="submit" className="button main">
        Keep the count
      </button>
      <button type="button" className="button" onClick={() => setText(null)}>
        Not now
      </button>
    </form>
  )
}
