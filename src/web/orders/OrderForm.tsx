import type { OrderRecord } from '#contract/order.ts'
import type { Context } from '#words/context.ts'
import type { Studio } from '../data/queries.ts'
import { Answer } from './Answer.tsx'
import type { Draft } from './draft.ts'
import { OrderFields } from './OrderFields.tsx'
import { useOrderForm } from './useOrderForm.ts'

type Props = {
  readonly heading: string
  readonly keepName: string
  readonly draft: Draft
  readonly before?: OrderRecord
  readonly studio: Studio
  readonly context: Context
  readonly change: (draft: Draft) => void
  readonly onKept: (order: OrderRecord) => void
  /** undefined: there is nothing to go back to. */
  readonly onLeave?: () => void
}

export function OrderForm({ heading, keepName, draft, before, studio, context, change, onKept, onLeave }: Props) {
  const form = useOrderForm({ draft, context, onKept, ...(before ? { before } : {}) })
  const put = (next: Draft) => {
    form.forgetAnswer()
    change(next)
  }
  return (
    <form
      className="order-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        form.keep()
      }}
    >
      <h2>{heading}</h2>
      <OrderFields draft={draft} faults={form.faults} studio={studio} change={put} />
      <div className="order-taps">
        <button type="button" className="button" disabled={form.isAsking} onClick={form.ask}>
          When could it be ready?
        </button>
        <button type="submit" className="button main" disabled={form.isKeeping}>
          {keepName}
        </button>
        {onLeave && (
          <button type="button" className="button" onClick={onLeave}>
            Leave it as it was
          </button>
        )}
      </div>
      <Answer
        isAsking={form.isAsking}
        promised={form.promised}
        studio={studio}
        context={context}
        take={(dueDate) => change({ ...draft, dueDate })}
      />
    </form>
  )
}
