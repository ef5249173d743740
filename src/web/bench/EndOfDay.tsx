import { memo, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { newId } from '../data/device.ts'
import { taps } from '../data/outbox.ts'
import { useSignal } from '../data/signal.ts'
import { useLog } from '../data/useLog.ts'
import { answersTo } from './deeds.ts'
import { type RoughTime, roughMoment, roughTimesSoFar } from './roughTimes.ts'
import type { BenchDay, BenchRow, BenchView } from './rows.ts'
import { tapOn } from './taps.ts'

type Props = { readonly view: BenchView; readonly today: BenchDay | undefined }
/** What is ticked: which of the row's answers, and when. */
type Tick = { readonly answer: number; readonly time: RoughTime }
type Ticks = ReadonlyMap<string, Tick>

/** The whole day ticked off in the evening, with rough times. */
export const EndOfDay = memo(function EndOfDay({ view, today }: Props) {
  const shownTaps = useSignal(taps)
  const [isOpen, setOpen] = useState(false)
  const [ticks, setTicks] = useState<Ticks>(new Map())
  const answerable = useMemo(() => (today?.rows() ?? []).filter((row) => answersTo(row, newId).length > 0), [today])
  const rows = answerable.filter(({ task }) => !tapOn(shownTaps, task.id, view.plan)?.finishes)
  return (
    <section className="side-board">
      <h2>End of the day</h2>
      <p className="quiet">Wet hands all day? Tick off now what was done, with rough times.</p>
      <button type="button" className="button" disabled={rows.length === 0} onClick={() => setOpen(true)}>
        Tick off the day
      </button>
      {isOpen && <DayDialog {...{ view, rows, ticks, setTicks }} onClose={() => setOpen(false)} />}
    </section>
  )
})

type DialogProps = {
  readonly view: BenchView
  readonly rows: readonly BenchRow[]
  readonly ticks: Ticks
  readonly setTicks: (ticks: Ticks) => void
  readonly onClose: () => void
}

/** Drawn only while it is open: else every tap on the bench would draw it too. */
function DayDialog({ view, rows, ticks, setTicks, onClose }: DialogProps) {
  const log = useLog()
  const dialog = useRef<HTMLDialogElement>(null)
  useLayoutEffect(() => dialog.current?.showModal(), [])
  const { nowMin, zone } = view.context
  const times = roughTimesSoFar(nowMin, zone)
  const tellAll = () => {
    for (const row of rows) {
      const tick = ticks.get(row.key)
      const answer = tick && answersTo(row, newId)[tick.answer]
      if (!answer) continue
      const { atMin, roughMin } = roughMoment(tick.time, nowMin, zone)
      const task = { planId: view.plan.id, id: row.task.id }
      log({ ...answer.deed, task, by: row.task.makerId, at: new Date(atMin * 60_000).toISOString(), roughMin })
    }
    setTicks(new Map())
    dialog.current?.close()
  }
  const choose = (key: string, tick: Tick | null) =>
    setTicks(new Map([...ticks].filter(([other]) => other !== key).concat(tick ? [[key, tick]] : [])))
  return (
    <dialog ref={dialog} className="sheet" aria-labelledby="end-of-day" onClose={onClose}>
      <h2 id="end-of-day">What was done today?</h2>
      <ul className="ticks">
        {rows.map((row) => (
          <Row key={row.key} {...{ row, times }} tick={ticks.get(row.key)} choose={(tick) => choose(row.key, tick)} />
        ))}
      </ul>
      <div className="taps">
        <button type="button" className="button main" disabled={ticks.size === 0} onClick={tellAll}>
          Log {ticks.size} {ticks.size === 1 ? 'thing' : 'things'}
        </button>
        <button type="button" className="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
    </dialog>
  )
}

type RowProps = {
  readonly row: BenchRow
  readonly times: readonly RoughTime[]
  readonly tick: Tick | undefined
  readonly choose: (tick: Tick | null) => void
}

/** A box for each answer: of what was found, nothing is taken for granted. */
function Row({ row, times, tick, choose }: RowProps) {
  const name = `${row.title}: ${row.what}`
  const answers = answersTo(row, newId)
  return (
    <li>
      {answers.map((answer, place) => (
        <label key={answer.name} className="tick">
          <input
            type="checkbox"
            checked={tick?.answer === place}
            onChange={({ target }) =>
              choose(target.checked ? { answer: place, time: tick?.time ?? times.at(-1) ?? 'just now' } : null)
            }
          />
          <span>{answers.length === 1 ? name : `${name}. ${answer.name}`}</span>
        </label>
      ))}
      {tick && (
        <select
          aria-label={`When: ${name}`}
          value={tick.time}
          onChange={({ target }) => choose({ ...tick, time: target.value as RoughTime })}
        >
          {times.map((time) => (
            <option key={time}>{time}</option>
          ))}
        </select>
      )}
    </li>
  )
}
