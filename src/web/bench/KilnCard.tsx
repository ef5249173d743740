import { Link } from '#web/app/Link.tsx'
import { newId } from '../data/device.ts'
import { useLog } from '../data/useLog.ts'
import { Card } from './Card.tsx'
import { kilnDeed } from './deeds.ts'
import type { BenchView, KilnRow } from './rows.ts'

const tapWords: Readonly<Record<KilnRow['task']['kind'], string>> = {
  load: 'Loaded as planned',
  start: 'Switched on',
  'switch-up': '',
  'shut-off': '',
  open: 'Opened',
  unload: 'Unloaded, all good',
}

/** Hands at a kiln. Turning up and shutting off leave no trace in the logbook: such cards go when their time is past. */
export function KilnCard({ row, view }: { readonly row: KilnRow; readonly view: BenchView }) {
  const log = useLog()
  const deed = kilnDeed(row, newId)
  const tell = () => {
    if (deed) log({ ...deed, task: { planId: view.plan.id, id: row.task.id }, by: row.task.makerId })
  }
  return (
    <Card row={row}>
      <div className="taps">
        {deed && (
          <button type="button" className="button main" onClick={tell}>
            {tapWords[row.task.kind]}
          </button>
        )}
        <Link to="/loads" className="button link-button">
          {row.task.kind === 'unload' ? 'Sort them in Loads' : 'See the load'}
        </Link>
      </div>
    </Card>
  )
}
