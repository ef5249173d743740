import { type SubmitEvent, useState } from 'react'
import type { OrderRecord } from '#contract/order.ts'
import { countText } from '#words/amounts.ts'
import { typedCount } from '#words/typed.ts'
import { Field } from '#web/app/Field.tsx'
import type { Studio } from '../data/queries.ts'
import { useLog } from '../data/useLog.ts'
import { deliveryFault, type Ready } from './delivering.ts'
import { CountField } from './fields.tsx'

type Props = { readonly order: OrderRecord; readonly ready: Ready; readonly studio: Studio }

/** What of one line goes out now, off the shelf. */
export function Deliver({ order, ready, studio }: Props) {
  const { line, wanted, onShelf } = ready
  const log = useLog()
  const [isOpen, setOpen] = useState(false)
  const [chosen, setChosen] = useState(0)
  const pile = onShelf[chosen] ?? onShelf[0]!
  const [text, setText] = useState(String(Math.min(wanted, pile.count)))
  const [fault, setFault] = useState<string>()
  const name = studio.designs.find(({ id }) => id === line.designId)?.name ?? line.designId
  const glazeName = (glazeId: string | null) => studio.glazes.find(({ id }) => id === glazeId)?.name ?? 'No glaze'
  const deliver = (event: SubmitEvent) => {
    event.preventDefault()
    const found = deliveryFault(text, ready, pile.count)
    setFault(found)
    if (found !== undefined) return
    const count = typedCount(text)
    const body = { orderId: order.id, designId: line.designId, glazeId: pile.glazeId, count }
    log({ happened: [{ kind: 'delivered', body }], said: `Delivered to ${order.name}: ${countText(count, name)}` })
    setOpen(false)
  }
  if (!isOpen)
    return (
      <button
        type="button"
        className="button"
        onClick={() => setOpen(true)}
        aria-label={`Deliver ${name} to ${order.name}`}
      >
        Deliver
      </button>
    )
  return (
    <form className="order-deliver" noValidate onSubmit={deliver}>
      {onShelf.length > 1 && (
        <Field label="Which">
          {(props) => (
            <select {...props} value={chosen} onChange={({ target }) => setChosen(Number(target.value))}>
              {onShelf.map(({ glazeId, count }, i) => (
                <option key={glazeId} value={i}>
                  {glazeName(glazeId)}, {count} on the shelf
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
      <CountField label={`Going out, of ${pile.count} on the shelf`} value={text} fault={fault} change={setText} />
      <button type="submit" className="button main">
        They went out
      </button>
      <button type="button" className="button" onClick={() => setOpen(false)}>
        Not now
      </button>
    </form>
  )
}
