import { memo, useMemo, useState } from 'react'
import { planning } from '../data/events.ts'
import { useLogState, usePlan, useStudio } from '../data/queries.ts'
import { useSignal } from '../data/signal.ts'
import { useWords } from '../data/useWords.ts'
import { countText } from '#words/amounts.ts'
import { capital, dateText, dayKey } from '#words/times.ts'
import { Link } from '#web/app/Link.tsx'
import { Attention } from './Attention.tsx'
import { Done } from './Done.tsx'
import { EndOfDay } from './EndOfDay.tsx'
import { HandCard } from './HandCard.tsx'
import { KilnCard } from './KilnCard.tsx'
import { BeforeLeaving } from './BeforeLeaving.tsx'
import { Offers } from './Offers.tsx'
import { type BenchDay, type BenchView, benchDays } from './rows.ts'
import './bench.css'

/** What needs hands now and next. */
export function Room() {
  const plan = usePlan().data
  const studio = useStudio().data
  const state = useLogState().data?.state
  const context = useWords()
  const now = useSignal(planning)
  if (!studio || !state || !plan) return <p className="waiting">Opening…</p>
  if (!plan.plan) return now === 'failed' ? <NotPlanned /> : <FirstPlan />
  return <Bench plan={plan.plan} {...{ state, studio, context }} />
}

/** A tap does not draw it anew: who shows taps listens for them. */
const Bench = memo(function Bench({ plan, state, studio, context }: BenchView) {
  const view = useMemo(() => ({ plan, state, studio, context }), [plan, state, studio, context])
  const days = useMemo(() => benchDays(view), [view])
  const today = days.find(({ key }) => key === dayKey(context.nowMin, context))
  return (
    <div className="bench">
      <div className="bench-head">
        <h1>Bench</h1>
        <p className="quiet">{dateText(context.nowMin, context)}</p>
      </div>
      <div className="bench-days">
        {days[0] && !today && <p className="nothing-today">Nothing needs hands before {days[0].name}.</p>}
        {days.length === 0 ? (
          <NothingToDo />
        ) : (
          days.map((day, place) => <Day key={day.key} day={day} view={view} isFirst={place === 0} />)
        )}
      </div>
      <aside className="bench-side" aria-label="Besides">
        <BeforeLeaving view={view} />
        <EndOfDay view={view} today={today} />
        <Offers view={view} />
        <Attention view={view} />
        <Done />
      </aside>
    </div>
  )
})

type DayProps = { readonly day: BenchDay; readonly view: BenchView; readonly isFirst: boolean }

/** The next day with work lies open; the later ones are folded, and drawn only once they are asked for. */
function Day({ day, view, isFirst }: DayProps) {
  const [isOpen, setOpen] = useState(isFirst)
  return (
    <details open={isOpen} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary className="bench-day">
        <h2>{capital(day.name)}</h2>
        <span className="quiet">{countText(day.taskCount, 'task')}</span>
      </summary>
      {isOpen && (
        <ul className="cards">
          {day.rows().map((row) => (
            <li key={row.key}>
              {row.kind === 'hand' ? <HandCard row={row} view={view} /> : <KilnCard row={row} view={view} />}
            </li>
          ))}
        </ul>
      )}
    </details>
  )
}

const FirstPlan = () => (
  <section className="empty" role="status">
    <h1>The first plan is being made</h1>
    <p>It takes a few seconds. It will appear here by itself.</p>
  </section>
)

const NotPlanned = () => (
  <section className="empty" role="alert">
    <h1>There is no plan yet</h1>
    <p>The plan that was made could not be kept. It is tried again as soon as something changes, such as an order.</p>
  </section>
)

const NothingToDo = () => (
  <section className="empty">
    <h2>Nothing needs hands</h2>
    <p>
      Enter an order, and what is to be cut for it will stand here. <Link to="/orders">Go to the orders</Link>
    </p>
  </section>
)
