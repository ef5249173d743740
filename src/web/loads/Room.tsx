import { type ReactNode, useState } from 'react'
import { onPaper } from '#words/context.ts'
import { useQuestion } from '#web/app/address.ts'
import { usePlan, useLogState, useStudio } from '../data/queries.ts'
import { useWords } from '../data/useWords.ts'
import { FiringCard } from './FiringCard.tsx'
import { LoadSheet } from './LoadSheet.tsx'
import { Folded } from './Folded.tsx'
import { PastCard } from './PastCard.tsx'
import { loadsShown } from './standing.ts'
import './loads.css'

const pastAtOnce = 10

/** Running, cooling, coming and past firings. */
export function Room() {
  const plan = usePlan().data?.plan
  const studio = useStudio().data
  const state = useLogState().data?.state
  const context = useWords()
  const [shownPast, setShownPast] = useState(pastAtOnce)
  const printed = useQuestion().get('print')
  if (plan === null) return <p role="status">The first plan is being made. The loads will appear here by themselves.</p>
  if (!plan || !studio || !state) return <p className="waiting">Opening…</p>
  const sheet = plan.firings.find(({ id }) => id === printed)
  if (sheet) return <LoadSheet firing={sheet} studio={studio} context={onPaper(context)} />
  const { running, cooling, coming, later, past } = loadsShown(plan.firings, state.firings, context.nowMin)
  const cards = (loads: typeof running) =>
    loads.map((shown) => <FiringCard key={shown.firing.id} {...{ shown, plan, studio, context }} />)
  return (
    <div className="loads">
      <h1>Loads</h1>
      {printed !== null && <p role="status">That load is not planned any more; these are.</p>}
      <Part name="Running">{cards(running)}</Part>
      <Part name="Cooling">{cards(cooling)}</Part>
      <Part name="Coming">{cards(coming)}</Part>
      {later.length > 0 && (
        <Folded name={`Later (${later.length})`}>{() => <div className="loads-part">{cards(later)}</div>}</Folded>
      )}
      {plan.firings.length === 0 && <p>No firing is planned. Enter an order, and its loads will stand here.</p>}
      <Part name="Past">
        {past.slice(0, shownPast).map((firing) => (
          <PastCard key={firing.id} {...{ firing, studio, context }} losses={state.losses} />
        ))}
      </Part>
      {past.length > shownPast && (
        <button type="button" className="button" onClick={() => setShownPast(shownPast + pastAtOnce)}>
          Show more of the past ({past.length - shownPast})
        </button>
      )}
    </div>
  )
}

/** Nothing at all where there is none. */
const Part = ({ name, children }: { readonly name: string; readonly children: readonly ReactNode[] }) =>
  children.length === 0 ? null : (
    <section className="loads-part" aria-label={name}>
      <h2>{name}</h2>
      {children}
    </section>
  )
