import { useMemo, useState } from 'react'
import type { Plan } from '#core/planning/plan.ts'
import type { LogState } from '#core/logbook/state.ts'
import { onPaper } from '#words/context.ts'
import { shortDateText } from '#words/times.ts'
import { Link } from '#web/app/Link.tsx'
import { useQuestion } from '#web/app/address.ts'
import { Offers } from '../bench/Offers.tsx'
import { dayStarts } from '../data/days.ts'
import { type Studio, useLogState, usePlan, useStudio } from '../data/queries.ts'
import { useWords } from '../data/useWords.ts'
import { airList } from './airLanes.ts'
import { Board } from './Board.tsx'
import { BoardLabels } from './BoardLabels.tsx'
import { useGround } from './ground.ts'
import { weekLanes } from './lanes.ts'
import { lanesList } from './lanesList.ts'
import { MovePanel } from './MovePanel.tsx'
import { RunCard } from './RunCard.tsx'
import { SessionCard } from './SessionCard.tsx'
import { sessionsOf } from './sessions.ts'
import { useMoving } from './useMoving.ts'
import { WeekSheet } from './WeekSheet.tsx'
import '../bench/bench.css'
import './week.css'

const shownAtOnce = 12
const ranges = [1, 3, 7] as const
const narrowPx = 600

/** The air, hands, waiting ware, racks and kilns of some days, and the hands as a list. */
export function Room() {
  const plan = usePlan().data?.plan
  const studio = useStudio().data
  const state = useLogState().data?.state
  if (plan === null) return <p role="status">The first plan is being made. The week will appear here by itself.</p>
  if (!plan || !studio || !state) return <p className="waiting">Opening…</p>
  return <Week plan={plan} studio={studio} state={state} />
}

type Props = { readonly plan: Plan; readonly studio: Studio; readonly state: LogState }

function Week({ plan, studio, state }: Props) {
  const context = useWords()
  const view = useMemo(() => ({ plan, state, studio, context }), [plan, state, studio, context])
  const ground = useGround(plan.id)
  const question = useQuestion()
  const runId = question.get('run')
  const [dayCount, setDayCount] = useState<number>(() => (innerWidth < narrowPx ? 3 : 7))
  const [fromDay, setFromDay] = useState(0)
  const [shown, setShown] = useState(shownAtOnce)
  const starts = dayStarts(context.nowMin, fromDay + dayCount + 1, context.zone).slice(fromDay)
  const span = { fromMin: starts[0]!, toMin: starts.at(-1)! }
  const steps = useMoving({ plan, studio, context, toMin: span.toMin })
  const lanes = useMemo(
    () => weekLanes({ plan, studio, ground, context }, { fromMin: span.fromMin, toMin: span.toMin }),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- of the context, only the units change a lane
    [plan, studio, ground, context.units, span.fromMin, span.toMin],
  )
  if (question.has('labels'))
    return <BoardLabels {...{ plan, studio, state }} nowMin={context.nowMin} context={onPaper(context)} />
  if (question.has('print')) return <WeekSheet {...{ plan, studio }} context={onPaper(context)} days={starts} />
  const days = starts.slice(0, -1).map((startMin) => ({ startMin, name: shortDateText(startMin, context) }))
  const sessions = sessionsOf(plan.tasks, { ...span, fromMin: Math.max(span.fromMin, context.nowMin) })
  const turn = (by: number) => {
    setFromDay(Math.max(0, fromDay + by))
    setShown(shownAtOnce)
  }
  return (
    <div className="week">
      <div className="week-head">
        <h1>Week</h1>
        <label className="theme">
          <span className="visually-hidden">Days shown</span>
          <select value={dayCount} onChange={({ target }) => setDayCount(Number(target.value))}>
            {ranges.map((count) => (
              <option key={count} value={count}>
                {count === 1 ? 'One day' : `${count} days`}
              </option>
            ))}
          </select>
        </label>
        <button type="button" className="button" disabled={fromDay === 0} onClick={() => turn(-dayCount)}>
          Earlier
        </button>
        <button type="button" className="button" onClick={() => turn(dayCount)}>
          Later
        </button>
        <Link to="/week?print" className="button link-button">
          Print
        </Link>
        <Link to="/week?labels" className="button link-button">
          Board labels
        </Link>
      </div>
      {runId !== null && (
        <RunCard {...{ runId, plan, studio, state, context }} move={(taskId) => steps.take(taskId, true)} />
      )}
      <Offers view={view} />
      <Board
        {...{ lanes, span, days }}
        nowMin={context.nowMin}
        moving={steps.moving}
        onTake={steps.take}
        onMove={steps.put}
        onDrop={steps.ask}
      />
      {steps.moving && <MovePanel {...{ plan, studio, ground, context, steps }} moving={steps.moving} />}
      <p className="quiet small">
        Bars with a heavy edge are pinned; dashed frames are the windows of the clay; dotted edges show a kiln that
        cools; pale ground behind hands is making hours. The band of the air is its humidity, from 0 below to 100 %
        above, as wide as it may stray.
      </p>
      <details className="week-air">
        <summary>The air that the plan counts on, as a list</summary>
        <p className="quiet small">
          Up to {shortDateText(ground?.nowMin ?? context.nowMin, context)} as it was read; from then on an outlook, with
          one standard deviation after each ±: two days in three stay within it.
        </p>
        <ul>
          {airList({ studio, ground, context }, span).map(({ key, said }) => (
            <li key={key}>{said}</li>
          ))}
        </ul>
      </details>
      <details className="week-air">
        <summary>Waiting ware, racks and kilns, as a list</summary>
        <ul>
          {lanesList(lanes, context).map(({ key, said }) => (
            <li key={key}>{said}</li>
          ))}
        </ul>
      </details>
      <h2>Sessions</h2>
      {sessions.length === 0 && <p>No hands are planned in these days.</p>}
      <ul className="week-sessions">
        {sessions.slice(0, shown).map((session) => (
          <SessionCard
            key={session.key}
            session={session}
            view={{ plan, studio, context }}
            move={(taskId) => steps.take(taskId, true)}
          />
        ))}
      </ul>
      {sessions.length > shown && (
        <button type="button" className="button" onClick={() => setShown(shown + shownAtOnce)}>
          Show more sessions ({sessions.length - shown})
        </button>
      )}
    </div>
  )
}
