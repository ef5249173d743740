import { randomUUID } from 'node:crypto'
import type { Db } from '#store/db.ts'
import { appendEntries } from '#store/logEntries.ts'

/** Edits reach the server one by one in the order of its clock, so they need no count of their own. */
const server = { deviceId: 'server', deviceSeq: 0 } as const

/**
 * Notes in the logbook that the studio's own setting was changed, so that plans know they are out of date.
 * @param what as the logbook shows it, at most 200 characters
 * @param at the moment, UTC
 */
export async function noteEdit(db: Db, studioId: string, what: string, at: string): Promise<void> {
  const entry = {
    id: randomUUID(),
    version: 1,
    kind: 'studio-edited',
    happenedAt: at,
    roughMin: 0,
    ...server,
    by: null,
    body: { what: what.slice(0, 200) },
    hint: null,
  } as const
  await appendEntries(db, studioId, [entry])
}
