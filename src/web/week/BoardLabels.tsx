import type { LogState } from '#core/logbook/state.ts'
import type { Plan } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Context } from '#words/context.ts'
import { Sheet } from '#web/app/Sheet.tsx'
import type { Studio } from '../data/queries.ts'
import { squareOf } from './qr.ts'
import { boardLabels, runAddress, runCard } from './runCard.ts'

type Props = {
  readonly plan: Plan
  readonly studio: Studio
  readonly state: LogState
  readonly nowMin: Minute
  readonly context: Context
}

/** A label for each ware board; its square of dark and light opens the run on a phone. */
export function BoardLabels({ plan, studio, state, nowMin, context }: Props) {
  const labels = boardLabels(plan, nowMin)
  return (
    <Sheet back="/week">
      <h1>Board labels</h1>
      <p className="printed-taps small">
        The squares lead to {location.origin}. Print them from the address that phones in the studio use.
      </p>
      {labels.length === 0 && <p>No board stands in the studio now.</p>}
      <ul className="board-labels">
        {labels.map(({ key, runId, board }) => {
          const run = plan.runs.find(({ id }) => id === runId)!
          const { title, stands, next } = runCard(
            run,
            state.runs.find(({ id }) => id === runId),
            { plan, studio, context },
          )
          return (
            <li key={key} className="board-label printed-part">
              <Square text={location.origin + runAddress(runId)} />
              <div>
                <strong>{title}</strong>
                {board && <span className="block">{board}</span>}
                {stands.map((text) => (
                  <span key={text} className="block small">
                    {text}
                  </span>
                ))}
                {next && <span className="block small">Next: {next}</span>}
              </div>
            </li>
          )
        })}
      </ul>
    </Sheet>
  )
}

function Square({ text }: { readonly text: string }) {
  const { side, path } = squareOf(text)
  return (
    <svg className="board-square" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={`Opens ${text}`}>
      <rect width={side} height={side} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  )
}
