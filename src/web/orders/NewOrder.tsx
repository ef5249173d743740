import type { Context } from '#words/context.ts'
import { toast } from '#web/app/toasts.ts'
import type { Studio } from '../data/queries.ts'
import { useRemoveOrder } from '../data/useKeep.ts'
import { useKeptDraft } from './keptDraft.ts'
import { OrderForm } from './OrderForm.tsx'

type Props = { readonly studio: Studio; readonly context: Context }

/** Ask for a date, enter an order; the plan then says what can be kept of it. */
export function NewOrder({ studio, context }: Props) {
  const [draft, change, clear] = useKeptDraft()
  const remove = useRemoveOrder()
  return (
    <OrderForm
      heading="Enter an order"
      keepName="Enter the order"
      {...{ draft, change, studio, context }}
      onKept={({ id }) => {
        toast({ said: 'The order is in. Its date follows with the next plan.', undo: () => remove.mutate(id) })
        clear()
      }}
    />
  )
}
