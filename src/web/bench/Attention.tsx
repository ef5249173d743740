import { memo } from 'react'
import { countText } from '#words/amounts.ts'
import { questionText } from '#words/questions.ts'
import { reasonText } from '#words/reasons.ts'
import { capital } from '#words/times.ts'
import type { BenchView } from './rows.ts'

/** What the plan could not place, with its reasons; and what in the logbook does not add up. */
export const Attention = memo(function Attention({
  view: { plan, state, studio, context },
}: {
  readonly view: BenchView
}) {
  if (plan.leftOut.length + state.questions.length === 0) return null
  return (
    <section className="side-board attention">
      <h2>Needs a word from you</h2>
      <ul>
        {plan.leftOut.map(({ designId, count, reasons, remedies, orderLineId, runId }) => (
          <li key={`${orderLineId} ${runId} ${designId}`}>
            <strong>
              {countText(count, studio.designs.find(({ id }) => id === designId)?.name ?? designId)} could not be placed
            </strong>
            {[...reasons, ...remedies].map((reason, index) => (
              <span key={index} className="small block">
                {capital(reasonText(reason, context))}
              </span>
            ))}
          </li>
        ))}
        {state.questions.map((question) => (
          <li key={`${question.entryId} ${question.code}`} className="small">
            {capital(questionText(question))}
          </li>
        ))}
      </ul>
    </section>
  )
})
