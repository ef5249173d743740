import { type KeyboardEvent, useEffect, useRef } from 'react'
import type { Plan } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Context } from '#words/context.ts'
import { taskText, windowText } from '#words/tasks.ts'
import { clockKey, momentText, shortDateText } from '#words/times.ts'
import { Field } from '#web/app/Field.tsx'
import type { Studio } from '../data/queries.ts'
import { dayStart, dayStarts } from '../data/days.ts'
import type { Moving } from './Board.tsx'
import { minuteAtClock } from './clock.ts'
import type { Ground } from './ground.ts'
import { doubtText, outcomeOf } from './moveWords.ts'
import { doubtsOf, keyedTo, type Place } from './moving.ts'
import type { useMoving } from './useMoving.ts'

type Props = {
  readonly plan: Plan
  readonly studio: Studio
  readonly ground: Ground | undefined
  readonly context: Context
  readonly moving: Moving
  readonly steps: ReturnType<typeof useMoving>
}

const daysOffered = 21
const mostSaid = 8

/** Where a step would stand: by arrow keys, by fields, or by dragging its bar; then what would come of it. */
export function MovePanel({ plan, studio, ground, context, moving, steps }: Props) {
  const handle = useRef<HTMLButtonElement>(null)
  const { task, place, ableIds, bounds } = moving
  const { put, ask, back, keep, isAsking, isByKey, supposed, refusal } = steps
  useEffect(() => {
    if (!isByKey) return
    const before = document.activeElement
    handle.current?.focus()
    return () => {
      if (before instanceof HTMLElement) before.focus()
    }
  }, [task.id, isByKey])
  const makerName = studio.makers.find(({ id }) => id === place.makerId)?.name ?? place.makerId
  const hours = ground?.makers.find(({ id }) => id === place.makerId)?.makingHours
  const doubts = doubtsOf(place, { task, hours, others: plan.tasks, nowMin: context.nowMin })
  const onKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape') return back()
    const next = keyedTo(place, event, ableIds, bounds)
    if (!next) return
    event.preventDefault()
    put(next)
  }
  const outcome = supposed && outcomeOf(supposed, task, place, { studio, context, shown: plan })
  return (
    <section className="week-move" aria-label="Move a step">
      <h2>Move “{taskText(task, plan, studio)}”</h2>
      <p className="quiet">
        Planned {momentText(task.startMin, context)}.{' '}
        {task.window
          ? `The clay can be worked ${windowText(task.window, context)}.`
          : 'The clay does not bound it; hours, dates and the kiln do.'}
      </p>
      <div className="week-place">
        <button
          ref={handle}
          type="button"
          className="button week-handle"
          aria-describedby="week-move-keys"
          onKeyDown={onKey}
          onClick={() => ask(task, place)}
        >
          {momentText(place.startMin, context)}, {makerName}
        </button>
        <PlaceFields {...{ studio, context, place, ableIds, put }} />
      </div>
      <p id="week-move-keys" className="quiet small">
        Drag its bar, or use the arrow keys here: left and right a quarter of an hour (with Shift an hour), up and down
        to another maker. Enter asks, Escape takes it back.
      </p>
      <ul aria-live="polite">
        {doubts.map((doubt) => (
          <li key={doubt.kind} className="week-doubt">
            {doubtText(doubt, makerName, plan, studio)}
          </li>
        ))}
      </ul>
      <div className="week-asked" role="status">
        {isAsking && <p>Working out what would come of it…</p>}
        {refusal !== undefined && <p className="fault">{refusal}</p>}
        {outcome && <Outcome outcome={outcome} />}
      </div>
      <div className="week-taps">
        {outcome?.isPlaced && (
          <button type="button" className="button main" onClick={keep}>
            Keep it there
          </button>
        )}
        {!outcome && (
          <button type="button" className="button main" disabled={isAsking} onClick={() => ask(task, place)}>
            What would come of it?
          </button>
        )}
        <button type="button" className="button" onClick={back}>
          Take it back
        </button>
      </div>
    </section>
  )
}

function Outcome({ outcome }: { readonly outcome: ReturnType<typeof outcomeOf> }) {
  const { isPlaced, why, moves, promises } = outcome
  if (!isPlaced) return <Said heading="It cannot stand there" lines={why} />
  return (
    <>
      {moves.length === 0 ? <p>Nothing else moves.</p> : <Said heading="These move with it" lines={moves} />}
      {promises.length === 0 ? <p>Every order keeps its date.</p> : <Said heading="Orders" lines={promises} />}
    </>
  )
}

function Said({ heading, lines }: { readonly heading: string; readonly lines: readonly string[] }) {
  return (
    <>
      <h3>{heading}</h3>
      <ul>
        {lines.slice(0, mostSaid).map((line) => (
          <li key={line}>{line}</li>
        ))}
        {lines.length > mostSaid && <li>and {lines.length - mostSaid} more</li>}
      </ul>
    </>
  )
}

type FieldsProps = Pick<Props, 'studio' | 'context'> &
  Pick<Moving, 'place' | 'ableIds'> & { readonly put: (place: Place) => void }

function PlaceFields({ studio, context, place, ableIds, put }: FieldsProps) {
  const { zone } = context
  const day = dayStart(place.startMin, zone)
  const time = clockKey(place.startMin, { zone })
  const days = [...new Set([...dayStarts(context.nowMin, daysOffered, zone), day])].toSorted((a, b) => a - b)
  const putAt = (dayMin: Minute, clock: string) => {
    const startMin = minuteAtClock(dayMin, clock, zone)
    if (startMin !== undefined) put({ ...place, startMin })
  }
  return (
    <>
      <Field label="Day">
        {(props) => (
          <select {...props} value={day} onChange={({ target }) => putAt(Number(target.value), time)}>
            {days.map((startMin) => (
              <option key={startMin} value={startMin}>
                {shortDateText(startMin, context)}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="Time">
        {(props) => <input {...props} type="time" value={time} onChange={({ target }) => putAt(day, target.value)} />}
      </Field>
      <Field label="Maker">
        {(props) => (
          <select {...props} value={place.makerId} onChange={({ target }) => put({ ...place, makerId: target.value })}>
            {studio.makers
              .filter(({ id }) => ableIds.includes(id))
              .map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
          </select>
        )}
      </Field>
    </>
  )
}
