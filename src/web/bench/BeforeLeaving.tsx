import { memo, useMemo } from 'react'
import { taps } from '../data/outbox.ts'
import { useSignal } from '../data/signal.ts'
import { useLog } from '../data/useLog.ts'
import { coveredDeed } from './deeds.ts'
import { beforeLeaving } from './leaving.ts'
import type { BenchView } from './rows.ts'

/** Covers to change before the door is shut. */
export const BeforeLeaving = memo(function BeforeLeaving({ view }: { readonly view: BenchView }) {
  const log = useLog()
  const shownTaps = useSignal(taps)
  const rows = useMemo(() => beforeLeaving(view), [view])
  const isTapped = (taskId: string) =>
    shownTaps.some(
      (tap) => tap.taskId === taskId && !tap.takenBack && (tap.position ?? Infinity) > view.plan.input.logPosition,
    )
  return (
    <section className="side-board">
      <h2>Before you leave</h2>
      {rows.length === 0 ? (
        <p className="quiet">Everything waits as it should.</p>
      ) : (
        <ul>
          {rows.map(({ runId, what, name, now, cover, next }) => {
            const taskId = `leaving:${runId}`
            const run = view.plan.runs.find(({ id }) => id === runId)!
            const design = view.studio.designs.find(({ id }) => id === run.designId)!
            const isDone = isTapped(taskId)
            return (
              <li key={runId} className="side-row">
                <span>
                  <strong>{what}</strong>
                  <span className="quiet small block">
                    now {now}, then {next}
                  </span>
                </span>
                <button
                  type="button"
                  className="button"
                  disabled={isDone}
                  aria-label={`Done: ${name} now ${next}`}
                  onClick={() =>
                    log({ ...coveredDeed({ run, design }, cover), task: { planId: view.plan.id, id: taskId } })
                  }
                >
                  {isDone ? '✓ Done' : 'Done'}
                </button>
              </li>
            )
          })}
        </ul>
      )}
    </section>
  )
})
