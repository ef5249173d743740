import { useState } from 'react'
import { MIN_PER_DAY } from '#core/units.ts'
import { shortDateText } from '#words/times.ts'
import { Offers } from '../bench/Offers.tsx'
import { dayStarts } from '../data/days.ts'
import { taps } from '../data/outbox.ts'
import { useLogState, usePlan, useStudio } from '../data/queries.ts'
import { useSignal } from '../data/signal.ts'
import { useWords } from '../data/useWords.ts'
import { LanesDrawing } from './LanesDrawing.tsx'
import { sessionsOf, weekLanes } from './lanes.ts'
import { SessionCard } from './SessionCard.tsx'
import '../bench/bench.css'
import './week.css'

const shownAtOnce = 12

/** Hands, waiting ware, racks and kilns of seven days. */
export function Room() {
  const plan = usePlan().data?.plan
  const studio = useStudio().data
  const state = useLogState().data?.state
  const shownTaps = useSignal(taps)
  const context = useWords()
  const [weekIndex, setWeekIndex] = useState(0)
  const [shown, setShown] = useState(shownAtOnce)
  if (plan === null) return <p role="status">The first plan is being made. The week will appear here by itself.</p>
  if (!plan || !studio || !state) return <p className="waiting">Opening…</p>
  const days = dayStarts(context.nowMin + weekIndex * 7 * MIN_PER_DAY, 7, context.zone).map((startMin) => ({
    startMin,
    name: shortDateText(startMin, context),
  }))
  const week = { fromMin: days[0]!.startMin, toMin: days.at(-1)!.startMin + MIN_PER_DAY }
  const sessions = sessionsOf(plan.tasks, { ...week, fromMin: Math.max(week.fromMin, context.nowMin) })
  const turn = (by: number) => {
    setWeekIndex(weekIndex + by)
    setShown(shownAtOnce)
  }
  return (
    <div className="week">
      <div className="week-head">
        <h1>Week</h1>
        <button type="button" className="button" disabled={weekIndex === 0} onClick={() => turn(-1)}>
          Week before
        </button>
        <button type="button" className="button" onClick={() => turn(1)}>
          Week after
        </button>
      </div>
      <Offers view={{ plan, state, studio, taps: shownTaps, context }} />
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- what scrolls must be reached by keyboard */}
      <div className="week-board" tabIndex={0} role="region" aria-label="Lanes of the week">
        <LanesDrawing lanes={weekLanes(plan, studio, week)} week={week} days={days} nowMin={context.nowMin} />
      </div>
      <p className="quiet small">
        Bars with a heavy edge are pinned; dashed frames are the windows of the clay; dotted edges show a kiln that
        cools.
      </p>
      <h2>Sessions</h2>
      {sessions.length === 0 && <p>No hands are planned in these days.</p>}
      <ul className="week-sessions">
        {sessions.slice(0, shown).map((session) => (
          <SessionCard key={session.key} session={session} view={{ plan, studio, context }} />
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
