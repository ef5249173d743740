import { useState } from 'react'
import { coverKinds } from '#core/drying/covers.ts'
import type { CoverKind } from '#core/drying/types.ts'
import { feltVerdicts } from '#core/logbook/entry.ts'
import { capital } from '#words/times.ts'
import { coverTexts } from '#words/trade.ts'
import { newId } from '../data/device.ts'
import { coveredDeed, doneDeed, feltDeed, lostDeed, type Said, secondDeed } from './deeds.ts'
import { Stepper } from './Stepper.tsx'
import type { BenchView, HandRow } from './rows.ts'

type Props = {
  readonly row: HandRow
  readonly view: BenchView
  readonly tell: (said: Said, finishes: boolean) => void
}

/** All that may be said of a row besides "done". */
export function MoreTaps({ row, view, tell }: Props) {
  return (
    <div className="more">
      {row.task.kind === 'step' && <SomeDone row={row} tell={tell} view={view} />}
      {row.isClay && (
        <>
          <fieldset>
            <legend>How it felt</legend>
            <div className="taps">
              {feltVerdicts.map((verdict) => (
                <button
                  key={verdict}
                  type="button"
                  className="button"
                  onClick={() => tell(feltDeed(row, verdict), false)}
                >
                  {capital(verdict)}
                </button>
              ))}
            </div>
          </fieldset>
          <fieldset>
            <legend>It now waits</legend>
            <div className="taps">
              {view.studio.studio.covers.map((cover) => (
                <button
                  key={cover}
                  type="button"
                  className="button"
                  aria-pressed={row.standing?.cover === cover}
                  onClick={() => tell(coveredDeed(row, cover), false)}
                >
                  {capital(coverTexts[cover])}
                </button>
              ))}
            </div>
          </fieldset>
        </>
      )}
      {row.run.underWay && <WentWrong row={row} tell={tell} />}
    </div>
  )
}

function SomeDone({ row, view, tell }: Props) {
  const all = row.task.count
  const [count, setCount] = useState(Math.max(1, all - 1))
  const [rest, setRest] = useState<CoverKind>('sealed')
  const left = all - count
  const hasRest = left > 0 && row.isClay
  const deed = doneDeed(row, { count, rest: hasRest ? rest : null }, newId)
  const covers = coverKinds.filter((cover) => view.studio.studio.covers.includes(cover))
  if (!deed) return null
  return (
    <fieldset>
      <legend>Some of them done</legend>
      <div className="taps">
        <Stepper label="Pieces done" value={count} least={1} most={all} onChange={setCount} />
        {hasRest && (
          <label className="field">
            <span className="small">The other {left} wait</span>
            <select value={rest} onChange={(event) => setRest(event.target.value as CoverKind)}>
              {covers.map((cover) => (
                <option key={cover} value={cover}>
                  {coverTexts[cover]}
                </option>
              ))}
            </select>
          </label>
        )}
        <button type="button" className="button main" onClick={() => tell(deed, true)}>
          Did {count}
          {hasRest ? `, ${left} ${coverTexts[rest]}` : ''}
        </button>
      </div>
    </fieldset>
  )
}

function WentWrong({ row, tell }: Omit<Props, 'view'>) {
  const [count, setCount] = useState(1)
  return (
    <fieldset>
      <legend>Went wrong</legend>
      <div className="taps">
        <Stepper label="Pieces that went wrong" value={count} least={1} most={row.run.count} onChange={setCount} />
        <button type="button" className="button" onClick={() => tell(secondDeed(row, count), false)}>
          Second
        </button>
        <button type="button" className="button" onClick={() => tell(lostDeed(row, count, 'cracked'), false)}>
          Cracked
        </button>
        <button type="button" className="button" onClick={() => tell(lostDeed(row, count, 'other'), false)}>
          Lost
        </button>
      </div>
    </fieldset>
  )
}
