import type { Context } from '#words/context.ts'
import type { Studio } from '../data/queries.ts'
import { type Promised, promiseSaid } from '#words/promises.ts'

type Props = {
  readonly isAsking: boolean
  readonly promised: Promised | undefined
  readonly studio: Studio
  readonly context: Context
  readonly take: (dueDate: string) => void
}

/** When it could be ready, and why not sooner. */
export function Answer({ isAsking, promised, studio, context, take }: Props) {
  const said = promised && promiseSaid(promised, studio.orders, context)
  const dueDate = promised?.dueDate ?? null
  return (
    <div className="order-answer" role="status">
      {isAsking && <p>Working out the earliest honest date…</p>}
      {said && (
        <>
          <p>
            <strong>{said.answer}</strong>
          </p>
          <ul className="quiet small">
            {said.sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          {dueDate !== null && (
            <button type="button" className="button" onClick={() => take(dueDate)}>
              Take this date
            </button>
          )}
        </>
      )}
    </div>
  )
}
