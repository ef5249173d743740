/** Records into rows and back. The tables' columns are named as the fields are, so that nothing is listed twice. */
import { and, eq, getTableColumns, inArray, sql } from 'drizzle-orm'
import type { PgColumn } from 'drizzle-orm/pg-core'
import type { StudioTables } from '#db/schema/index.ts'
import { chunksOf } from './chunks.ts'
import type { Db } from './db.ts'
import { recordShapes } from './recordTables.ts'
import type { ListShape, RecordName, RowTable } from './recordTables.ts'
import { FOREIGN_KEY_VIOLATION, sqlStateOf } from './sqlState.ts'

/** All records of one kind, by id in code-unit order. */
export async function selectRecords<Name extends RecordName>(
  db: Db,
  studioId: string,
  name: Name,
): Promise<StudioTables[Name]> {
  const { table, leftOut = [], lists = [] } = recordShapes[name]
  const records = (await rowsOf(db, studioId, table)).toSorted((a, b) => (textOf(a, 'id') < textOf(b, 'id') ? -1 : 1))
  for (const field of leftOut) for (const record of records) if (record[field] === null) delete record[field]
  for (const list of lists) {
    const members = await membersByOwner(db, studioId, list)
    for (const record of records) record[list.field] = members.get(textOf(record, 'id')) ?? []
  }
  return records as unknown as StudioTables[Name]
}

/** Adds records whose ids are free. */
export async function insertRecords<Name extends RecordName>(
  db: Db,
  studioId: string,
  name: Name,
  records: StudioTables[Name],
): Promise<void> {
  const { table, leftOut = [], lists = [] } = recordShapes[name]
  const rows = records.map((record) => rowOf(studioId, record, leftOut))
  for (const chunk of chunksOf(rows, columnCount(table))) await db.insert(table).values(chunk)
  for (const list of lists) await insertMembers(db, list, rows)
}

/**
 * Adds records, or puts them in the place of those with their ids.
 * 'missing': one of them names something that is not there; nothing was done.
 */
export function upsertRecords<Name extends RecordName>(
  db: Db,
  studioId: string,
  name: Name,
  records: StudioTables[Name],
): Promise<'saved' | 'missing'> {
  const { table, leftOut = [], lists = [] } = recordShapes[name]
  const rows = records.map((record) => rowOf(studioId, record, leftOut))
  return unlessReferenceBreaks('missing', async () => {
    await db.transaction(async (db) => {
      for (const chunk of chunksOf(rows, columnCount(table)))
        await db
          .insert(table)
          .values(chunk)
          .onConflictDoUpdate({ target: [table.studioId, table.id], set: asGiven(table) })
      for (const list of lists) {
        await removeMembers(db, studioId, list, rows)
        await insertMembers(db, list, rows)
      }
    })
    return 'saved' as const
  })
}

/** Removes a record with what is only its own (a maker's hours, a design's parts). 'needed': others still name it. */
export function removeRecord(
  db: Db,
  studioId: string,
  name: RecordName,
  id: string,
): Promise<'removed' | 'not-there' | 'needed'> {
  const { table } = recordShapes[name]
  return unlessReferenceBreaks('needed', () =>
    db.transaction(async (db) => {
      const removed = await db
        .delete(table)
        .where(and(eq(table.studioId, studioId), eq(table.id, id)))
        .returning({ id: table.id })
      return removed.length > 0 ? ('removed' as const) : ('not-there' as const)
    }),
  )
}

/** `work` has a transaction of its own, so that what goes before it in an outer one still stands. */
export async function unlessReferenceBreaks<Result, Broken>(
  broken: Broken,
  work: () => Promise<Result>,
): Promise<Result | Broken> {
  try {
    return await work()
  } catch (error) {
    if (sqlStateOf(error) === FOREIGN_KEY_VIOLATION) return broken
    throw error
  }
}

type Row = Record<string, unknown>

const textOf = (row: Row, column: string): string => row[column] as string

/** Without the studio, which is the same for all. */
async function rowsOf(db: Db, studioId: string, table: RowTable): Promise<Row[]> {
  const { studioId: _, ...columns } = getTableColumns(table) as Record<string, PgColumn>
  return db.select(columns).from(table).where(eq(table.studioId, studioId))
}

const rowOf = (studioId: string, record: object, leftOut: readonly string[]): Row => ({
  ...Object.fromEntries(leftOut.map((field) => [field, null])),
  ...record,
  studioId,
})

async function membersByOwner(db: Db, studioId: string, { table, ownerId }: ListShape): Promise<Map<string, Row[]>> {
  const members = new Map<string, Row[]>()
  const rows = await rowsOf(db, studioId, table)
  for (const row of rows.toSorted((a, b) => Number(a['place']) - Number(b['place']))) {
    const { [ownerId]: owner, place: _, ...member } = row
    const list = members.get(owner as string)
    if (list) list.push(member)
    else members.set(owner as string, [member])
  }
  return members
}

async function insertMembers(db: Db, { field, table, ownerId }: ListShape, owners: readonly Row[]): Promise<void> {
  const rows = owners.flatMap((owner) =>
    (owner[field] as readonly object[]).map((member, place): Row => ({
      ...member,
      studioId: owner['studioId'],
      [ownerId]: owner['id'],
      place,
    })),
  )
  for (const chunk of chunksOf(rows, columnCount(table))) await db.insert(table).values(chunk)
}

async function removeMembers(db: Db, studioId: string, { table, ownerId }: ListShape, owners: readonly Row[]) {
  const ownerColumn = (getTableColumns(table) as Record<string, PgColumn>)[ownerId]!
  for (const chunk of chunksOf(owners, 1)) {
    const ids = chunk.map((owner) => owner['id'])
    await db.delete(table).where(and(eq(table.studioId, studioId), inArray(ownerColumn, ids)))
  }
}

const columnCount = (table: RowTable): number => Object.keys(getTableColumns(table)).length

/** Every column takes the value that the row which was to be inserted has. */
const asGiven = (table: RowTable): Row =>
  Object.fromEntries(
    Object.entries(getTableColumns(table) as Record<string, PgColumn>).map(([field, { name }]) => [
      field,
      sql`excluded.${sql.identifier(name)}`,
    ]),
  )
