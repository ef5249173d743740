import type { LogState } from '#core/logbook/state.ts'
import type { Plan } from '#core/planning/plan.ts'
import type { Context } from '#words/context.ts'
import { Link } from '#web/app/Link.tsx'
import type { Studio } from '../data/queries.ts'
import { runCard } from './runCard.ts'
import { TaskRow } from './SessionCard.tsx'

type Props = {
  readonly runId: string
  readonly plan: Plan
  readonly studio: Studio
  readonly state: LogState
  readonly context: Context
  readonly move: (taskId: string) => unknown
}

/** The run that somebody stands before, with all that is still to be done to it. */
export function RunCard({ runId, plan, studio, state, context, move }: Props) {
  const run = plan.runs.find(({ id }) => id === runId)
  if (!run) return <p role="status">This run is finished, or was never begun. The week goes on without it.</p>
  const { title, stands, coming } = runCard(
    run,
    state.runs.find(({ id }) => id === runId),
    { plan, studio, context },
  )
  return (
    <section className="week-session" aria-label={title}>
      <div className="week-session-head">
        <h2>{title}</h2>
        <Link to="/" className="button link-button">
          Log on the bench
        </Link>
        <Link to="/week" className="button link-button">
          The whole week
        </Link>
      </div>
      <p className="quiet">{stands.join('; ')}</p>
      {coming.length === 0 && <p>No more hands are planned for it.</p>}
      <ul>
        {coming.map((task) => (
          <TaskRow key={task.id} task={task} view={{ plan, studio, context }} move={move} withDay />
        ))}
      </ul>
    </section>
  )
}
