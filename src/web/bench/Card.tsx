import type { ReactNode } from 'react'
import type { TapState } from '../data/outbox.ts'
import type { BenchRow } from './rows.ts'

type Props = { readonly row: BenchRow; readonly tap: TapState | null; readonly children: ReactNode }

/** A board of the bench: what, when, where, its window, and the taps; ticked at once when tapped. */
export function Card({ row, tap, children }: Props) {
  const { title, what, when, where, window, after, maker } = row
  const isDone = tap?.finishes ?? false
  return (
    <article className="card" data-kind={row.kind === 'kiln' ? 'kiln' : row.task.kind} data-done={isDone}>
      <div className="card-head">
        <h3>
          {isDone && <span aria-hidden="true">✓ </span>}
          {title}
        </h3>
        <p className="card-when">{when}</p>
      </div>
      <p className="card-what">{what}</p>
      {isDone ? (
        <p className="quiet">{tap?.said} · noted, the plan follows</p>
      ) : (
        <>
          {window && (
            <p className="card-window">
              <span className="card-tag">Window</span> {window}
            </p>
          )}
          {where && <p className="quiet small">{where}</p>}
          {after && <p className="small">{after}</p>}
          <p className="quiet small">{maker}</p>
          {tap && <p className="card-felt">Noted: {tap.said}</p>}
          {children}
        </>
      )}
    </article>
  )
}
