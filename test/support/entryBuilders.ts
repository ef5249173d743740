/** Logbook entries for tests. */
import type { Entry, EntryBodies, EntryKind } from '#core/logbook/entry.ts'
import type { Minute } from '#core/time.ts'

type Around = Partial<Pick<Entry, 'id' | 'roughMin' | 'deviceId' | 'deviceSeq' | 'by' | 'hint'>>

/** One entry from the wall tablet. Its id is made of kind, minute and body, so that unlike entries have unlike ids. */
export function anEntry<Kind extends EntryKind>(
  kind: Kind,
  happenedMin: Minute,
  body: EntryBodies[Kind],
  around: Around = {},
): Entry {
  const id = `${kind} ${happenedMin} ${Object.values(body).map(String).join(' ')}`
  const entry = {
    id,
    version: 1,
    kind,
    happenedMin,
    roughMin: 0,
    deviceId: 'tablet',
    deviceSeq: 0,
    by: null,
    body,
    hint: null,
  }
  return { ...entry, ...around } as Entry
}

/** Entries of one device in the order given: numbered, with ids `e1`, `e2`, ... */
export const aLog = (...entries: readonly Entry[]): Entry[] =>
  entries.map((entry, index) => ({ ...entry, id: `e${index + 1}`, deviceSeq: index + 1 }))
