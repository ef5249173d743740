import { newId } from '../data/device.ts'
import { useLog } from '../data/useLog.ts'
import { answersTo } from './deeds.ts'
import type { BenchRow, BenchView } from './rows.ts'

/** The plain answers to a row, one tap each. */
export function Answers({ row, view }: { readonly row: BenchRow; readonly view: BenchView }) {
  const log = useLog()
  return answersTo(row, newId).map(({ name, deed }, place) => (
    <button
      key={name}
      type="button"
      className={place === 0 ? 'button main' : 'button'}
      onClick={() => log({ ...deed, task: { planId: view.plan.id, id: row.task.id }, by: row.task.makerId })}
    >
      {name}
    </button>
  ))
}
