import { placeOf } from '#contract/problems.ts'
import { referenceFaults } from '#contract/references.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import type { Db } from '#store/db.ts'
import type { RecordName } from '#store/recordTables.ts'
import { upsertRecords } from '#store/records.ts'
import { noteEdit } from '../log/noteEdit.ts'
import { Refusal } from '../refusal.ts'
import { nameOf } from './called.ts'
import { fileOf, tablesOf } from './wholeFile.ts'

/**
 * Adds a record, or puts it in the place of the one with its id, and notes that in the logbook.
 * @param at the moment, UTC
 * @throws Refusal `invalid` if it names something that is not there, or repeats what must be once
 */
export function keepRecord<Name extends RecordName>(
  db: Db,
  studioId: string,
  name: Name,
  record: StudioTables[Name][number],
  at: string,
): Promise<'added' | 'changed'> {
  return db.transaction(async (db) => {
    const tables = await tablesOf(db, studioId)
    const others = (tables[name] as readonly { readonly id: string }[]).filter(({ id }) => id !== record.id)
    refuseFaults({ ...tables, [name]: [...others, record] }, name, others.length, at)
    await upsertRecords(db, studioId, name, [record] as unknown as StudioTables[Name])
    const isNew = others.length === tables[name].length
    await noteEdit(db, studioId, `${isNew ? 'added' : 'changed'} ${nameOf(name, record)}`, at)
    return isNew ? 'added' : 'changed'
  })
}

/** All was well before, so whatever is wrong now is wrong through this record; it stands last in its table. */
function refuseFaults(tables: StudioTables, name: RecordName, index: number, at: string): void {
  const faults = referenceFaults(fileOf(tables, at))
  const [first] = faults
  if (!first) return
  const fields = faults.map(({ path, message }) => {
    const isOwn = path[0] === name && path[1] === index
    return { path: placeOf(isOwn ? path.slice(2) : path), message }
  })
  throw new Refusal('invalid', `${first.message}.`, fields)
}
