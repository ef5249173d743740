import { STUDIO_FORMAT, STUDIO_VERSION, type StudioFile, type StudioTables } from '#contract/studioFields.ts'
import type { Db } from '#store/db.ts'
import { readStudioTables } from '#store/studios.ts'
import { Refusal } from '../refusal.ts'

/** After every reading there is, so that none is read. */
const endOfTime = '9999-12-31T00:00:00.000Z'

/**
 * The studio's tables without the log of its air, which refers to nothing but spots and may be long.
 * @throws Refusal `not-found`
 */
export async function tablesOf(db: Db, studioId: string): Promise<StudioTables> {
  const tables = await readStudioTables(db, studioId, endOfTime)
  if (!tables) throw new Refusal('not-found', 'There is no such studio.')
  return tables
}

/** As a file, for the rules that hold between the records of one. */
export const fileOf = (tables: StudioTables, at: string): StudioFile => ({
  format: STUDIO_FORMAT,
  version: STUDIO_VERSION,
  asOf: at,
  ...tables,
  entries: [],
})
