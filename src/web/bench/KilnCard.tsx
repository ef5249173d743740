import { memo } from 'react'
import { Link } from '#web/app/Link.tsx'
import { Card } from './Card.tsx'
import { Answers } from './Answers.tsx'
import type { BenchView, KilnRow } from './rows.ts'
import { useTapOn } from './taps.ts'

type Props = { readonly row: KilnRow; readonly view: BenchView }

/** Hands at a kiln. Turning up and shutting off leave no trace in the logbook: such cards go when their time is past. */
export const KilnCard = memo(function KilnCard({ row, view }: Props) {
  const tap = useTapOn(row.task.id, view.plan)
  return (
    <Card row={row} tap={tap}>
      <div className="taps">
        <Answers row={row} view={view} />
        <Link to="/loads" className="button link-button">
          {row.task.kind === 'unload' ? 'Sort them in Loads' : 'See the load'}
        </Link>
      </div>
    </Card>
  )
})
