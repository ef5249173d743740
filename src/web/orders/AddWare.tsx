import { type SubmitEvent, useState } from 'react'
import type { LogState } from '#core/logbook/state.ts'
import { Field } from '#web/app/Field.tsx'
import { toast } from '#web/app/toasts.ts'
import { newId } from '../data/device.ts'
import type { Studio } from '../data/queries.ts'
import { useKeepStock } from '../data/useKeep.ts'
import { CountField, DesignField, GlazeField } from './fields.tsx'
import { countedAgain } from './shelf.ts'

type Props = { readonly state: LogState; readonly studio: Studio }
type Typed = {
  readonly designId: string
  readonly stage: 'finished' | 'bisque'
  readonly glazeId: string
  readonly count: string
}

const nothing: Typed = { designId: '', stage: 'finished', glazeId: '', count: '' }

/** Good ware that stood there before the logbook began. */
export function AddWare({ state, studio }: Props) {
  const keep = useKeepStock()
  const [isOpen, setOpen] = useState(false)
  const [typed, setTyped] = useState(nothing)
  const [faults, setFaults] = useState<Partial<Record<'designId' | 'count', string>>>({})
  const put = (part: Partial<Typed>) => setTyped({ ...typed, ...part })
  if (!isOpen)
    return (
      <button type="button" className="button" onClick={() => setOpen(true)}>
        Other ware stands there too
      </button>
    )
  const design = studio.designs.find(({ id }) => id === typed.designId)
  const enter = (event: SubmitEvent) => {
    event.preventDefault()
    const { designId, stage, count } = typed
    const glazeId = stage === 'bisque' || typed.glazeId === '' ? null : typed.glazeId
    const isSame = (pile: { readonly designId: string; readonly stage: string; readonly glazeId: string | null }) =>
      pile.designId === designId && pile.stage === stage && pile.glazeId === glazeId
    const there = state.shelf.find(isSame)?.count ?? 0
    const counted = countedAgain(count, { designId, stage, glazeId, count: there }, studio.stock, newId('stock'))
    setFaults({
      ...(design ? {} : { designId: 'Choose a design.' }),
      ...('fault' in counted ? { count: counted.fault } : {}),
    })
    if (!design || 'fault' in counted) return
    keep.mutate(counted.stock, {
      onSuccess: () => {
        toast({ said: `On the shelf: ${count} ${design.name}` })
        setTyped(nothing)
        setOpen(false)
      },
    })
  }
  return (
    <form className="order-form" noValidate onSubmit={enter}>
      <DesignField
        studio={studio}
        value={typed.designId}
        fault={faults.designId}
        change={(designId) => put({ designId, glazeId: '' })}
      />
      <Field label="It is">
        {(props) => (
          <select
            {...props}
            value={typed.stage}
            onChange={({ target }) => put({ stage: target.value === 'bisque' ? 'bisque' : 'finished' })}
          >
            <option value="finished">finished</option>
            <option value="bisque">bisque, not yet glazed</option>
          </select>
        )}
      </Field>
      {typed.stage === 'finished' && (
        <GlazeField
          studio={studio}
          designId={typed.designId}
          none="No glaze"
          value={typed.glazeId}
          change={(glazeId) => put({ glazeId })}
        />
      )}
      <CountField
        label="How many stand there"
        value={typed.count}
        fault={faults.count}
        change={(count) => put({ count })}
      />
      <div className="order-taps">
        <button type="submit" className="button main">
          Put it on the shelf
        </button>
        <button type="button" className="button" onClick={() => setOpen(false)}>
          Not now
        </button>
      </div>
    </form>
  )
}
