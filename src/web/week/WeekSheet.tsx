import type { Plan } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Context } from '#words/context.ts'
import { momentText } from '#words/times.ts'
import { Sheet } from '#web/app/Sheet.tsx'
import type { Studio } from '../data/queries.ts'
import { weekSheet } from './weekSheet.ts'

type Props = {
  readonly plan: Plan
  readonly studio: Studio
  readonly context: Context
  readonly days: readonly Minute[]
}

/** The days as they hang on the wall, with a box to tick for each thing. */
export function WeekSheet({ plan, studio, context, days }: Props) {
  return (
    <Sheet back="/week">
      <h1>{studio.studio.name}: the week</h1>
      <p className="small">
        As planned {momentText(plan.input.nowMin, context)}. The clay has the last word: feel it first.
      </p>
      {weekSheet({ plan, studio, context }, days).map(({ startMin, name, rows }) => (
        <section key={startMin} className="printed-part">
          <h2>{name}</h2>
          {rows.length === 0 ? (
            <p>No hands are planned.</p>
          ) : (
            <table className="printed-rows">
              <thead>
                <tr>
                  <th scope="col">Done</th>
                  <th scope="col">When</th>
                  <th scope="col">Who</th>
                  <th scope="col">What</th>
                </tr>
              </thead>
              <tbody>
                {rows.map(({ key, when, who, what, notes }) => (
                  <tr key={key}>
                    <td>
                      <span className="printed-box" />
                    </td>
                    <td>{when}</td>
                    <td>{who}</td>
                    <td>
                      {what}
                      {notes.map((note) => (
                        <span key={note} className="small block">
                          {note}
                        </span>
                      ))}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
        </section>
      ))}
    </Sheet>
  )
}
