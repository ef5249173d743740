import type { OrderRecord } from '#contract/order.ts'
import type { Plan } from '#core/planning/plan.ts'
import { useLogState, usePlan, useStudio } from '../data/queries.ts'
import { useWords } from '../data/useWords.ts'
import { NewOrder } from './NewOrder.tsx'
import { OrderCard } from './OrderCard.tsx'
import { Shelf } from './Shelf.tsx'
import './orders.css'

/** Every order with what can be promised of it, the soonest first; what is delivered is folded away. */
export function Room() {
  const made = usePlan().data
  const studio = useStudio().data
  const state = useLogState().data?.state
  const context = useWords()
  if (!studio || !made) return <p className="waiting">Opening…</p>
  const { plan } = made
  const orders = studio.orders.toSorted((a, b) => (a.dueDate < b.dueDate ? -1 : 1))
  const delivered = orders.filter((order) => isDelivered(order, plan))
  const open = orders.filter((order) => !delivered.includes(order))
  const cards = (shown: readonly OrderRecord[]) =>
    shown.map((order) => <OrderCard key={order.id} {...{ order, plan, state, studio, context }} />)
  return (
    <div className="orders">
      <h1>Orders</h1>
      <a className="button link-button order-jump" href="#new-order">
        Enter an order
      </a>
      <div>
        {orders.length === 0 && <p>Nothing is ordered. Enter an order, and its date is worked out.</p>}
        {cards(open)}
        {delivered.length > 0 && (
          <details>
            <summary>Delivered ({delivered.length})</summary>
            {cards(delivered)}
          </details>
        )}
      </div>
      <div className="order-side" id="new-order" tabIndex={-1}>
        <NewOrder studio={studio} context={context} />
        {state && <Shelf state={state} studio={studio} />}
      </div>
    </div>
  )
}

/** By the plan: nothing of it is wanted any more. */
const isDelivered = ({ lines }: OrderRecord, plan: Plan | null): boolean =>
  plan !== null &&
  lines.every(({ id }) => plan.promises.some(({ orderLineId, wanted }) => orderLineId === id && wanted === 0))
