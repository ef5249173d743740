import { useRef, useState } from 'react'
import { newId } from '../data/device.ts'
import { useLog } from '../data/useLog.ts'
import { type Answer, answersTo } from './deeds.ts'
import { type RoughTime, roughMoment, roughTimesSoFar } from './roughTimes.ts'
import type { BenchDay, BenchRow, BenchView } from './rows.ts'

type Props = { readonly view: BenchView; readonly today: BenchDay | undefined }
/** What is ticked: which of the row's answers, and when. */
type Tick = { readonly answer: number; readonly time: RoughTime }

/** The whole day ticked off in the evening, with rough times. */
export function EndOfDay({ view, today }: Props) {
  const log = useLog()
  const dialog = useRef<HTMLDialogElement>(null)
  const [ticks, setTicks] = useState<ReadonlyMap<string, Tick>>(new Map())
  const { nowMin, zone } = view.context
  const times = roughTimesSoFar(nowMin, zone)
  const open = (today?.rows ?? [])
    .filter(({ tap }) => !tap?.finishes)
    .map((row) => ({ row, answers: answersTo(row, newId) }))
    .filter(({ answers }) => answers.length > 0)
  const tellAll = () => {
    for (const { row, answers } of open) {
      const tick = ticks.get(row.key)
      const answer = tick && answers[tick.answer]
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
    <section className="side-board">
      <h2>End of the day</h2>
      <p className="quiet">Wet hands all day? Tick off now what was done, with rough times.</p>
      <button type="button" className="button" disabled={open.length === 0} onClick={() => dialog.current?.showModal()}>
        Tick off the day
      </button>
      <dialog ref={dialog} className="sheet" aria-labelledby="end-of-day">
        <h2 id="end-of-day">What was done today?</h2>
        <ul className="ticks">
          {open.map(({ row, answers }) => (
            <Row
              key={row.key}
              {...{ row, answers, times }}
              tick={ticks.get(row.key)}
              choose={(tick) => choose(row.key, tick)}
            />
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
    </section>
  )
}

type RowProps = {
  readonly row: BenchRow
  readonly answers: readonly Answer[]
  readonly times: readonly RoughTime[]
  readonly tick: Tick | undefined
  readonly choose: (tick: Tick | null) => void
}

/** A box for each answer: of what was found, nothing is taken for granted. */
function Row({ row, answers, times, tick, choose }: RowProps) {
  const name = `${row.title}: ${row.what}`
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
