import { referenceFaults } from '#contract/references.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import type { Db } from '#store/db.ts'
import type { RecordName } from '#store/recordTables.ts'
import { removeRecord as removeRow } from '#store/records.ts'
import { noteEdit } from '../log/noteEdit.ts'
import { Refusal } from '../refusal.ts'
import { called, nameOf } from './called.ts'
import { fileOf, tablesOf } from './wholeFile.ts'

/** What goes with a record, since it is only its own. */
const goesWith: Partial<Record<RecordName, readonly RecordName[]>> = { makers: ['hours', 'busyTimes'] }
const shownUsers = 3

/**
 * Removes a record with what is only its own, and notes that in the logbook. What the logbook tells of it stays told.
 * @param at the moment, UTC
 * @throws Refusal `not-found`, or `conflict` with the names of those that still need it
 */
export function removeRecord(db: Db, studioId: string, name: RecordName, id: string, at: string): Promise<void> {
  return db.transaction(async (db) => {
    const tables = await tablesOf(db, studioId)
    const record = tables[name].find((candidate) => candidate.id === id)
    if (!record) throw new Refusal('not-found', `There is no such ${called[name]}.`)
    const users = usersOf(tables, name, id, at)
    if (users.length > 0) throw new Refusal('conflict', sentenceOf(nameOf(name, record), users))
    const outcome = await removeRow(db, studioId, name, id)
    if (outcome === 'needed')
      throw new Refusal('conflict', `${nameOf(name, record)} is still used; change what uses it first.`)
    await noteEdit(db, studioId, `removed ${nameOf(name, record)}`, at)
  })
}

/** Whoever would name something missing once the record is gone, by name. */
function usersOf(tables: StudioTables, name: RecordName, id: string, at: string): string[] {
  const without = { ...tables, [name]: tables[name].filter((record) => record.id !== id) }
  const users = referenceFaults(fileOf(without, at)).flatMap(({ path: [table, index] }) => {
    if (typeof index !== 'number' || goesWith[name]?.includes(table as RecordName)) return []
    const user = without[table as RecordName][index]
    return user ? [nameOf(table as RecordName, user)] : []
  })
  return [...new Set(users)]
}

function sentenceOf(what: string, users: readonly string[]): string {
  const shown = users.slice(0, shownUsers).join(', ')
  const more = users.length > shownUsers ? ` and ${users.length - shownUsers} more` : ''
  return `${what} is still used by ${shown}${more}; change that first.`
}
