import { useState } from 'react'
import { coverDeeds } from '#words/trade.ts'
import { newId } from '../data/device.ts'
import { type Deed, useLog } from '../data/useLog.ts'
import { Card } from './Card.tsx'
import { doneDeed, feltDeed, lookedIn } from './deeds.ts'
import { MoreTaps } from './MoreTaps.tsx'
import type { BenchView, HandRow } from './rows.ts'

type Props = { readonly row: HandRow; readonly view: BenchView }

/** A step or a look-in, with the taps that answer it. */
export function HandCard({ row, view }: Props) {
  const log = useLog()
  const [isOpen, setOpen] = useState(false)
  const tell = (said: Pick<Deed, 'happened' | 'said'>, finishes = true) => {
    setOpen(false)
    log({ ...said, finishes, task: { planId: view.plan.id, id: row.task.id }, by: row.task.makerId })
  }
  return (
    <Card row={row}>
      <div className="taps">
        {row.task.kind === 'look-in' ? (
          <LookInTaps row={row} tell={tell} />
        ) : (
          <button
            type="button"
            className="button main"
            onClick={() => tell(doneDeed(row, row.task.count, null, newId))}
          >
            Done, all {row.task.count}
          </button>
        )}
        {row.isClay && row.task.kind === 'step' && (
          <button type="button" className="button" onClick={() => tell(feltDeed(row, 'just right'), false)}>
            Just right
          </button>
        )}
        <button type="button" className="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {isOpen ? 'Less' : 'More…'}
        </button>
      </div>
      {isOpen && <MoreTaps row={row} view={view} tell={tell} />}
    </Card>
  )
}

type LookInProps = { readonly row: HandRow; readonly tell: (said: Pick<Deed, 'happened' | 'said'>) => void }

function LookInTaps({ row, tell }: LookInProps) {
  const { parkWhen, after } = row.task
  if (!parkWhen)
    return (
      <button type="button" className="button main" onClick={() => tell(lookedIn(row, false))}>
        {after ? `Done: ${coverDeeds[after.cover]}` : 'Looked in'}
      </button>
    )
  return (
    <>
      <button type="button" className="button main" onClick={() => tell(lookedIn(row, true))}>
        Firm enough: {coverDeeds[parkWhen.cover]}
      </button>
      <button type="button" className="button" onClick={() => tell(lookedIn(row, false))}>
        Not yet{after ? `: ${coverDeeds[after.cover]}` : ''}
      </button>
    </>
  )
}
