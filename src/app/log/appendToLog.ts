import type { EntryRecord } from '#contract/entry.ts'
import type { Db } from '#store/db.ts'
import { appendEntries, type EntryPlace } from '#store/logEntries.ts'
import { Refusal } from '../refusal.ts'

/**
 * Writes what happened into the logbook, all in one commit. What does not fit the state is taken too, and becomes a
 * question to the potter.
 * @returns where each entry stands; one sent again is there once
 * @throws Refusal `not-found` if there is no such studio
 */
export async function appendToLog(
  db: Db,
  studioId: string,
  entries: readonly EntryRecord[],
): Promise<readonly EntryPlace[]> {
  const places = await appendEntries(db, studioId, entries)
  if (places === 'no-such-studio') throw new Refusal('not-found', 'There is no such studio.')
  return places
}
