import { usePlan, useLogState, useStudio } from '../data/queries.ts'
import { useWords } from '../data/useWords.ts'
import { FiringCard } from './FiringCard.tsx'
import './loads.css'

/** Coming, running and cooling firings, the first to be loaded on top. */
export function Room() {
  const plan = usePlan().data?.plan
  const studio = useStudio().data
  const state = useLogState().data?.state
  const context = useWords()
  if (plan === null) return <p role="status">The first plan is being made. The loads will appear here by themselves.</p>
  if (!plan || !studio || !state) return <p className="waiting">Opening…</p>
  const firings = plan.firings.toSorted((a, b) => a.loadMin - b.loadMin)
  return (
    <div className="loads">
      <h1>Loads</h1>
      {firings.length === 0 && <p>No firing is planned. Enter an order, and its loads will stand here.</p>}
      {firings.map((firing) => (
        <FiringCard key={firing.id} {...{ firing, plan, studio, state, context }} />
      ))}
    </div>
  )
}
