import type { EntryRecord } from '#contract/entry.ts'
import type { Entry } from '#core/logbook/entry.ts'
import { minuteOf } from './wireTime.ts'

/** The logbook as the core takes it, in the order given. Seconds are dropped: the device's own count keeps the order. */
export const toEntries = (records: readonly EntryRecord[]): Entry[] => records.map(toEntry)

function toEntry({ happenedAt, ...record }: EntryRecord): Entry {
  const happenedMin = minuteOf(happenedAt)
  if (record.kind !== 'away') return { ...record, happenedMin } as Entry
  const { makerId, fromAt, toAt } = record.body
  return { ...record, happenedMin, body: { makerId, fromMin: minuteOf(fromAt), toMin: minuteOf(toAt) } }
}
