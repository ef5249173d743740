import type { Plan, RunTask } from '#core/planning/plan.ts'
import { oddsText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { afterText, taskText, windowText } from '#words/tasks.ts'
import { capital, clockText, momentText, spanText } from '#words/times.ts'
import { toast } from '#web/app/toasts.ts'
import { newId } from '../data/device.ts'
import type { Studio } from '../data/queries.ts'
import { useKeepPin, useRemovePin } from '../data/useKeep.ts'
import { useLog } from '../data/useLog.ts'
import type { Session } from './sessions.ts'

type View = { readonly plan: Plan; readonly studio: Studio; readonly context: Context }

type Props = { readonly session: Session; readonly view: View; readonly move: (taskId: string) => unknown }

export function SessionCard({ session, view, move }: Props) {
  const log = useLog()
  const { makerId, startMin, endMin, tasks } = session
  const maker = view.studio.makers.find(({ id }) => id === makerId)?.name ?? makerId
  const span = spanText(startMin, endMin, view.context)
  const miss = () =>
    log({
      happened: [{ kind: 'away', body: { makerId, fromAt: isoOf(startMin), toAt: isoOf(endMin) } }],
      said: `${maker} is away: ${span}`,
    })
  return (
    <li className="week-session">
      <div className="week-session-head">
        <h3>
          {maker}, {span}
        </h3>
        <button type="button" className="button" onClick={miss} aria-label={`Miss it: ${maker}, ${span}`}>
          Miss it
        </button>
      </div>
      <ul>
        {tasks.map((task) => (
          <TaskRow key={task.id} task={task} view={view} move={move} />
        ))}
      </ul>
    </li>
  )
}

type RowProps = Omit<Props, 'session'> & { readonly task: RunTask; readonly withDay?: boolean }

export function TaskRow({ task, view, move, withDay = false }: RowProps) {
  const pin = useKeepPin()
  const free = useRemovePin()
  const { plan, studio, context } = view
  const text = taskText(task, plan, studio)
  const kept = studio.pins.find(({ runId, stepId }) => runId === task.runId && stepId === task.stepId)
  const keep = () => {
    const id = newId('pin')
    const { runId, stepId, makerId } = task
    const said = `${text} stays at ${momentText(task.startMin, context)}`
    pin.mutate(
      { id, runId, stepId, startsAt: isoOf(task.startMin), makerId },
      { onSuccess: () => toast({ said, undo: () => free.mutate(id) }) },
    )
  }
  const letGo = () => {
    if (!kept) return
    free.mutate(kept.id, {
      onSuccess: () => toast({ said: `${text} may move again`, undo: () => pin.mutate(kept) }),
    })
  }
  return (
    <li className="week-task">
      <span>
        {withDay ? capital(momentText(task.startMin, context)) : clockText(task.startMin, context)} {text}
        {kept && <strong> (pinned)</strong>}
      </span>
      {task.kind === 'step' && (
        <button type="button" className="button" onClick={() => move(task.id)} aria-label={`Move: ${text}`}>
          Move
        </button>
      )}
      {task.kind === 'step' && (
        <button
          type="button"
          className="button"
          onClick={kept ? letGo : keep}
          aria-label={`${kept ? 'Free' : 'Pin'}: ${text}`}
        >
          {kept ? 'Free' : 'Pin'}
        </button>
      )}
      <details>
        <summary aria-label={`Why: ${text}`}>Why?</summary>
        <Why task={task} view={view} />
      </details>
    </li>
  )
}

function Why({ task, view }: { readonly task: RunTask; readonly view: View }) {
  const run = view.plan.runs.find(({ id }) => id === task.runId)
  return (
    <p className="quiet">
      {task.window
        ? `The clay can be worked ${windowText(task.window, view.context)}.`
        : 'The state of the clay does not bound this; dates, hours and the kiln do.'}{' '}
      {run && `All the steps of this run still to come fall in their windows: ${oddsText(run.windowOdds)}.`}{' '}
      {afterText(task)}
    </p>
  )
}

const isoOf = (minute: number): string => new Date(minute * 60_000).toISOString()
