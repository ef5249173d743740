import { calendarDayText, capital } from '#words/times.ts'
import { usePlan, useStudio } from '../data/queries.ts'
import { useWords } from '../data/useWords.ts'
import { linesSaid } from './lines.ts'
import { NewOrder } from './NewOrder.tsx'
import './orders.css'

/** Every order with what can be promised of it, the soonest first. */
export function Room() {
  const plan = usePlan().data
  const studio = useStudio().data
  const context = useWords()
  if (!studio || !plan) return <p className="waiting">Opening…</p>
  const orders = studio.orders.toSorted((a, b) => (a.dueDate < b.dueDate ? -1 : 1))
  const { plan: made } = plan
  return (
    <div className="orders">
      <h1>Orders</h1>
      <div>
        {orders.length === 0 && <p>Nothing is ordered. Enter an order, and its date is worked out.</p>}
        {orders.map((order) => (
          <section key={order.id} className="order" aria-label={order.name}>
            <h2>{order.name}</h2>
            <p className="quiet">
              {order.kind === 'stock' ? 'Stock to keep' : order.kind === 'market' ? 'Market day' : 'Due'}{' '}
              {calendarDayText(order.dueDate, context)}
            </p>
            {made &&
              linesSaid(order, made, studio, context).map(({ id, what, standing, sentences }) => (
                <div key={id} className="order-line">
                  <p>
                    {what} · <span className={`standing ${standing.split(' ')[0]}`}>{capital(standing)}</span>
                  </p>
                  <ul className="quiet">
                    {sentences.map((sentence) => (
                      <li key={sentence}>{sentence}</li>
                    ))}
                  </ul>
                </div>
              ))}
          </section>
        ))}
      </div>
      <NewOrder studio={studio} />
    </div>
  )
}
