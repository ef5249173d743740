import { Link } from '#web/app/Link.tsx'
import { Card } from './Card.tsx'
import { Answers } from './Answers.tsx'
import type { BenchView, KilnRow } from './rows.ts'

/** Hands at a kiln. Turning up and shutting off leave no trace in the logbook: such cards go when their time is past. */
export const KilnCard = ({ row, view }: { readonly row: KilnRow; readonly view: BenchView }) => (
  <Card row={row}>
    <div className="taps">
      <Answers row={row} view={view} />
      <Link to="/loads" className="button link-button">
        {row.task.kind === 'unload' ? 'Sort them in Loads' : 'See the load'}
      </Link>
    </div>
  </Card>
)
