/** The logbook in the database: only ever added to, each entry once. */
import { and, asc, desc, eq, getTableColumns, gt, inArray, lt, lte } from 'drizzle-orm'
import { logEntries, studios } from '#db/schema/index.ts'
import type { EntryRecord } from '#db/schema/index.ts'
import { chunksOf } from './chunks.ts'
import type { Db } from './db.ts'

/** Where an entry stands: 1, 2, 3 ... in its studio, in the order in which they were taken. */
export type EntryPlace = {
  readonly id: string
  /** `known`: it was there already, the same in every word. `differs`: another entry has its id; that one stays, this one was not taken. */
  readonly outcome: 'added' | 'known' | 'differs'
  readonly position: number
}

export type PlacedEntry = { readonly position: number; readonly entry: EntryRecord }

/**
 * Adds entries in one commit, in the order given, and says of each where it stands. Sent twice, they are taken once: what
 * a device did not hear the answer of it may send again. Once this has returned, they survive a kill and a power cut.
 * @returns one place for each entry; 'no-such-studio' and nothing done if there is none
 */
export function appendEntries(
  db: Db,
  studioId: string,
  entries: readonly EntryRecord[],
): Promise<readonly EntryPlace[] | 'no-such-studio'> {
  return db.transaction(async (db) => {
    // Held until the commit: positions are given out one writer at a time, and seen in their order.
    const [studio] = await db
      .select({ logPosition: studios.logPosition })
      .from(studios)
      .where(eq(studios.id, studioId))
      .for('update')
    if (!studio) return 'no-such-studio'
    const standing = await entriesById(
      db,
      studioId,
      entries.map(({ id }) => id),
    )
    const added: PlacedEntry[] = []
    const places = entries.map((entry): EntryPlace => {
      const known = standing.get(entry.id)
      if (known)
        return { id: entry.id, outcome: isSame(known.entry, entry) ? 'known' : 'differs', position: known.position }
      const placed = { position: studio.logPosition + added.length + 1, entry }
      standing.set(entry.id, placed)
      added.push(placed)
      return { id: entry.id, outcome: 'added', position: placed.position }
    })
    if (added.length > 0) {
      await insertPlaced(db, studioId, added)
      await db
        .update(studios)
        .set({ logPosition: studio.logPosition + added.length })
        .where(eq(studios.id, studioId))
    }
    return places
  })
}

/** Entries of which the positions are already known to be free. */
export async function insertPlaced(db: Db, studioId: string, placed: readonly PlacedEntry[]): Promise<void> {
  for (const chunk of chunksOf(placed, Object.keys(getTableColumns(logEntries)).length))
    await db.insert(logEntries).values(chunk.map(({ position, entry }) => ({ ...entry, studioId, position })))
}

/** The logbook as it was when `position` was its newest entry, in the order of positions. */
export async function entriesUpTo(db: Db, studioId: string, position: number): Promise<readonly EntryRecord[]> {
  const rows = await db
    .select()
    .from(logEntries)
    .where(and(eq(logEntries.studioId, studioId), lte(logEntries.position, position)))
    .orderBy(asc(logEntries.position))
  return rows.map(entryOf)
}

/** What was added after `position`, oldest first. */
export async function entriesAfter(
  db: Db,
  studioId: string,
  position: number,
  atMost: number,
): Promise<readonly PlacedEntry[]> {
  const rows = await db
    .select()
    .from(logEntries)
    .where(and(eq(logEntries.studioId, studioId), gt(logEntries.position, position)))
    .orderBy(asc(logEntries.position))
    .limit(atMost)
  return rows.map(placedOf)
}

/** What was added before `position`, newest first. */
export async function entriesBefore(
  db: Db,
  studioId: string,
  position: number,
  atMost: number,
): Promise<readonly PlacedEntry[]> {
  const rows = await db
    .select()
    .from(logEntries)
    .where(and(eq(logEntries.studioId, studioId), lt(logEntries.position, position)))
    .orderBy(desc(logEntries.position))
    .limit(atMost)
  return rows.map(placedOf)
}

/** Position of the newest entry, 0 for an empty logbook; undefined if there is no such studio. */
export async function logPositionOf(db: Db, studioId: string): Promise<number | undefined> {
  const [studio] = await db.select({ logPosition: studios.logPosition }).from(studios).where(eq(studios.id, studioId))
  return studio?.logPosition
}

async function entriesById(db: Db, studioId: string, ids: readonly string[]): Promise<Map<string, PlacedEntry>> {
  const found = new Map<string, PlacedEntry>()
  for (const chunk of chunksOf(ids, 1)) {
    const rows = await db
      .select()
      .from(logEntries)
      .where(and(eq(logEntries.studioId, studioId), inArray(logEntries.id, chunk)))
    for (const row of rows) found.set(row.id, placedOf(row))
  }
  return found
}

type Row = typeof logEntries.$inferSelect

const placedOf = (row: Row): PlacedEntry => ({ position: row.position, entry: entryOf(row) })

/** The body went in with its kind, so they belong together when they come out. */
function entryOf(row: Row): EntryRecord {
  const { studioId: _, position: _position, receivedAt: _receivedAt, ...entry } = row
  return entry as EntryRecord
}

/** The same in every word; the order of fields does not count, since the database does not keep it. */
const isSame = (a: EntryRecord, b: EntryRecord): boolean => sortedText(a) === sortedText(b)

function sortedText(value: unknown): string {
  return JSON.stringify(value, (_, field: unknown) =>
    field !== null && typeof field === 'object' && !Array.isArray(field)
      ? Object.fromEntries(Object.entries(field).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : field,
  )
}
