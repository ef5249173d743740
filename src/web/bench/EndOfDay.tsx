import { useRef, useState } from 'react'
import { newId } from '../data/device.ts'
import { useLog } from '../data/useLog.ts'
import { doneDeed, kilnDeed, lookedIn } from './deeds.ts'
import { dayStart, type RoughTime, roughMoment, roughTimes } from './roughTimes.ts'
import type { BenchDay, BenchRow, BenchView } from './rows.ts'

type Props = { readonly view: BenchView; readonly today: BenchDay | undefined }

/** The whole day ticked off in the evening, with rough times. */
export function EndOfDay({ view, today }: Props) {
  const log = useLog()
  const dialog = useRef<HTMLDialogElement>(null)
  const [chosen, setChosen] = useState<ReadonlyMap<string, RoughTime>>(new Map())
  const open = (today?.rows ?? []).filter(({ tap }) => !tap?.finishes)
  const tellAll = () => {
    const { nowMin, zone } = view.context
    for (const row of open) {
      const time = chosen.get(row.key)
      const deed = time && deedOf(row)
      if (!deed) continue
      const { atMin, roughMin } = roughMoment(time, dayStart(nowMin, zone), nowMin)
      const task = { planId: view.plan.id, id: row.task.id }
      log({ ...deed, task, by: row.task.makerId, at: new Date(atMin * 60_000).toISOString(), roughMin })
    }
    setChosen(new Map())
    dialog.current?.close()
  }
  const choose = (key: string, time: RoughTime | null) => {
    const next = new Map(chosen)
    if (time) next.set(key, time)
    else next.delete(key)
    setChosen(next)
  }
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
          {open.map((row) => (
            <li key={row.key}>
              <label className="tick">
                <input
                  type="checkbox"
                  checked={chosen.has(row.key)}
                  onChange={(event) => choose(row.key, event.target.checked ? 'this morning' : null)}
                />
                <span>
                  {row.title}: {row.what}
                </span>
              </label>
              {chosen.has(row.key) && (
                <select
                  aria-label={`When: ${row.title}, ${row.what}`}
                  value={chosen.get(row.key)}
                  onChange={(event) => choose(row.key, event.target.value as RoughTime)}
                >
                  {roughTimes.map((time) => (
                    <option key={time}>{time}</option>
                  ))}
                </select>
              )}
            </li>
          ))}
        </ul>
        <div className="taps">
          <button type="button" className="button main" disabled={chosen.size === 0} onClick={tellAll}>
            Log {chosen.size} {chosen.size === 1 ? 'thing' : 'things'}
          </button>
          <button type="button" className="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </dialog>
    </section>
  )
}

function deedOf(row: BenchRow) {
  if (row.kind === 'kiln') return kilnDeed(row, newId)
  return row.task.kind === 'look-in' ? lookedIn(row, false) : doneDeed(row, row.task.count, null, newId)
}
