import { useState } from 'react'
import { Field } from '#web/app/Field.tsx'
import { toast } from '#web/app/toasts.ts'
import { newId } from '../data/device.ts'
import type { Studio } from '../data/queries.ts'
import { useKeepOrder } from '../data/useKeep.ts'
import { type Draft, draftFaults, type DraftFaults, emptyDraft, orderOf } from './draft.ts'

/** Enter an order; the plan then says what can be kept of it. */
export function NewOrder({ studio }: { readonly studio: Studio }) {
  const [draft, setDraft] = useState<Draft>(emptyDraft)
  const [faults, setFaults] = useState<DraftFaults>({})
  const keep = useKeepOrder()
  const design = studio.designs.find(({ id }) => id === draft.designId)
  const change = (part: Partial<Draft>) => setDraft({ ...draft, ...part })
  const enter = () => {
    const found = draftFaults(draft)
    setFaults(found)
    if (Object.keys(found).length > 0) return
    keep.mutate(orderOf(draft, newId('order')), {
      onSuccess: () => {
        toast({ said: 'The order is in. Its date follows with the next plan.' })
        setDraft(emptyDraft)
      },
    })
  }
  return (
    <form
      className="new-order"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        enter()
      }}
    >
      <h2>Enter an order</h2>
      <Field label="For whom or what" fault={faults.name}>
        {(props) => <input {...props} value={draft.name} onChange={({ target }) => change({ name: target.value })} />}
      </Field>
      <Field label="Design" fault={faults.designId}>
        {(props) => (
          <select
            {...props}
            value={draft.designId}
            onChange={({ target }) => change({ designId: target.value, glazeId: '' })}
          >
            <option value="">Choose one</option>
            {studio.designs.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="Glaze">
        {(props) => (
          <select {...props} value={draft.glazeId} onChange={({ target }) => change({ glazeId: target.value })}>
            <option value="">Decided later</option>
            {design?.glazeIds.map((id) => (
              <option key={id} value={id}>
                {studio.glazes.find((glaze) => glaze.id === id)?.name ?? id}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="How many" fault={faults.count}>
        {(props) => (
          <input
            {...props}
            inputMode="numeric"
            value={draft.count}
            onChange={({ target }) => change({ count: target.value })}
          />
        )}
      </Field>
      <Field label="Due" fault={faults.dueDate}>
        {(props) => (
          <input
            {...props}
            type="date"
            value={draft.dueDate}
            onChange={({ target }) => change({ dueDate: target.value })}
          />
        )}
      </Field>
      <button type="submit" className="button main" disabled={keep.isPending}>
        Enter the order
      </button>
    </form>
  )
}
