import { taps } from '../data/outbox.ts'
import { useSignal } from '../data/signal.ts'
import { takeBack } from '../data/useLog.ts'

const mostShown = 8

/** What was just logged from here, with the way back. */
export function Done() {
  const shown = useSignal(taps)
    .filter(({ said, takenBack, entries }) => said && !takenBack && entries[0]!.kind !== 'corrected')
    .slice(-mostShown)
    .toReversed()
  if (shown.length === 0) return null
  return (
    <section className="side-board">
      <h2>Just logged</h2>
      <ul>
        {shown.map((tap) => (
          <li key={tap.entries[0]!.id} className="side-row">
            <span>
              {tap.said}
              {tap.status === 'waiting' && <span className="quiet small block">waits to be sent</span>}
            </span>
            <button type="button" className="button" aria-label={`Undo: ${tap.said}`} onClick={() => takeBack(tap)}>
              Undo
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
