/** Entries of the logbook as they go over the wire, and the studio they belong to: all that a short-lived program needs. */
import type { EntryRecord } from '#contract/entry.ts'
import type { StudioRecord } from '#contract/studio.ts'
import { usualRules } from './studioBuilders.ts'

export const aStudioRecord: StudioRecord = {
  id: 'studio',
  name: 'Studio',
  zone: 'Europe/London',
  wareBoardCount: 30,
  covers: ['open', 'cloth', 'loose', 'tucked', 'sealed'],
  rules: usualRules,
}

/** Entry number `count` of a device: the minute counts up with it. */
export function anEntryRecord(count: number, given: Partial<EntryRecord> = {}): EntryRecord {
  const entry = {
    id: `entry-${count}`,
    version: 1,
    kind: 'covered',
    happenedAt: new Date(Date.UTC(2026, 2, 2, 9, count)).toISOString(),
    roughMin: 0,
    deviceId: 'tablet',
    deviceSeq: count,
    by: null,
    body: { runId: 'run', cover: 'loose' },
    hint: null,
  }
  return { ...entry, ...given } as EntryRecord
}

export const entryRecords = (count: number, from = 1): EntryRecord[] =>
  Array.from({ length: count }, (_, i) => anEntryRecord(from + i))
