/** A studio as a whole: its own row, all its tables, in and out. */
import { asc, eq } from 'drizzle-orm'
import { studios, tokens } from '#db/schema/index.ts'
import type { EntryRecord, StudioTables } from '#db/schema/index.ts'
import { addAirReadings, selectAirReadings } from './airReadings.ts'
import type { Db } from './db.ts'
import { entriesUpTo, insertPlaced, logPositionOf } from './logEntries.ts'
import { insertRecords, selectRecords } from './records.ts'
import { recordNames } from './recordTables.ts'
import type { RecordName } from './recordTables.ts'
import { atOneMoment } from './snapshot.ts'

export type StudioLine = {
  readonly id: string
  readonly name: string
  readonly zone: string
  readonly logPosition: number
}
export type WholeStudio = StudioTables & { readonly entries: readonly EntryRecord[] }

export const listStudios = (db: Db): Promise<readonly StudioLine[]> => {
  const { id, name, zone, logPosition } = studios
  return db.select({ id, name, zone, logPosition }).from(studios).orderBy(asc(name), asc(id))
}

/** The studio's own record: its name, zone, covers and the rules of the house. */
export async function findStudio(db: Db, studioId: string): Promise<StudioTables['studio'] | undefined> {
  const [row] = await db.select().from(studios).where(eq(studios.id, studioId))
  if (!row) return undefined
  const { id, name, zone, wareBoardCount, covers, logPosition: _, ...rules } = row
  return { id, name, zone, wareBoardCount, covers, rules }
}

/** Makes a studio with nothing in it, or changes the record of the one that has its id. */
export async function upsertStudio(db: Db, { rules, ...studio }: StudioTables['studio']): Promise<void> {
  const row = { ...studio, ...rules }
  await db.insert(studios).values(row).onConflictDoUpdate({ target: studios.id, set: row })
}

/** Removes a studio with all that is its own, the logbook too. */
export async function removeStudio(db: Db, studioId: string): Promise<'removed' | 'not-there'> {
  const removed = await db.delete(studios).where(eq(studios.id, studioId)).returning({ id: studios.id })
  return removed.length > 0 ? 'removed' : 'not-there'
}

/**
 * All that the studio has and wants, as it is at one moment.
 * @param airFrom readings of the air before this moment are left out; planning needs only the last weeks
 */
export const readStudioTables = (db: Db, studioId: string, airFrom?: string): Promise<StudioTables | undefined> =>
  atOneMoment(db, (db) => tablesOf(db, studioId, airFrom))

/** All of a studio: tables and logbook, as they are at one moment; lists by id in code-unit order. */
export function exportStudio(db: Db, studioId: string): Promise<WholeStudio | undefined> {
  return atOneMoment(db, async (db) => {
    const tables = await tablesOf(db, studioId)
    if (!tables) return undefined
    const entries = await entriesUpTo(db, studioId, (await logPositionOf(db, studioId)) ?? 0)
    return { ...tables, entries: entries.toSorted((a, b) => (a.id < b.id ? -1 : 1)) }
  })
}

/**
 * Puts a whole studio in the place of the one that has its id, if any. Entries get their positions in the order given;
 * plans and what was learned go, since they were made from another logbook; tokens stay.
 */
export async function replaceStudio(db: Db, whole: WholeStudio): Promise<'made' | 'replaced'> {
  const { studio, entries } = whole
  return db.transaction(async (db) => {
    const kept = await db.select().from(tokens).where(eq(tokens.studioId, studio.id))
    const removed = await removeStudio(db, studio.id)
    await upsertStudio(db, studio)
    for (const name of recordNames) await insertRecords(db, studio.id, name, whole[name])
    await addAirReadings(db, studio.id, whole.airReadings)
    await insertPlaced(
      db,
      studio.id,
      entries.map((entry, i) => ({ position: i + 1, entry })),
    )
    await db.update(studios).set({ logPosition: entries.length }).where(eq(studios.id, studio.id))
    if (kept.length > 0) await db.insert(tokens).values(kept)
    return removed === 'removed' ? 'replaced' : 'made'
  })
}

async function tablesOf(db: Db, studioId: string, airFrom?: string): Promise<StudioTables | undefined> {
  const studio = await findStudio(db, studioId)
  if (!studio) return undefined
  const tables: Partial<Record<RecordName, StudioTables[RecordName]>> = {}
  for (const name of recordNames) tables[name] = await selectRecords(db, studioId, name)
  return {
    studio,
    ...(tables as Pick<StudioTables, RecordName>),
    airReadings: await selectAirReadings(db, studioId, airFrom),
  }
}
