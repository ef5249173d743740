import { memo, useState } from 'react'
import { useLog } from '../data/useLog.ts'
import { Answers } from './Answers.tsx'
import { Card } from './Card.tsx'
import { feltDeed, type Said } from './deeds.ts'
import { MoreTaps } from './MoreTaps.tsx'
import type { BenchView, HandRow } from './rows.ts'
import { useTapOn } from './taps.ts'

type Props = { readonly row: HandRow; readonly view: BenchView }

/** A step or a look-in, with the taps that answer it. */
export const HandCard = memo(function HandCard({ row, view }: Props) {
  const log = useLog()
  const tap = useTapOn(row.task.id, view.plan)
  const [isOpen, setOpen] = useState(false)
  const tell = (said: Said, finishes: boolean) => {
    setOpen(false)
    log({ ...said, finishes, task: { planId: view.plan.id, id: row.task.id }, by: row.task.makerId })
  }
  return (
    <Card row={row} tap={tap}>
      <div className="taps">
        <Answers row={row} view={view} />
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
})
