/** Forward-only changes of the tables: which there are, which a database still lacks. */
import fs from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { and, desc, eq } from 'drizzle-orm'
import { bigint, pgSchema, serial, text } from 'drizzle-orm/pg-core'
import type { Db } from './db.ts'

export type Migration = { readonly tag: string; readonly when: number }

/** The database was changed by a newer version of the program; this one would not understand it. */
export class NewerDatabase extends Error {
  override readonly name = 'NewerDatabase'

  constructor() {
    super('This database was made by a newer version of Wareboard. Start that version, or an even newer one.')
  }
}

/** Found from here upwards, so that the sources and the built bundle find the same one. */
export function migrationsFolder(): string {
  for (let folder = path.dirname(fileURLToPath(import.meta.url)); ; folder = path.dirname(folder)) {
    const candidate = path.join(folder, 'db', 'migrations')
    if (fs.existsSync(path.join(candidate, 'meta', '_journal.json'))) return candidate
    if (folder === path.dirname(folder)) throw new Error('The folder db/migrations is not beside the program.')
  }
}

export function allMigrations(folder = migrationsFolder()): readonly Migration[] {
  const journal = JSON.parse(fs.readFileSync(path.join(folder, 'meta', '_journal.json'), 'utf8')) as {
    readonly entries: readonly Migration[]
  }
  return journal.entries
}

/**
 * What `db` still lacks, oldest first.
 * @throws NewerDatabase if it has had a migration that this program does not know
 */
export async function pendingMigrations(db: Db): Promise<readonly Migration[]> {
  const all = allMigrations()
  const appliedWhen = await lastApplied(db)
  if (appliedWhen > (all.at(-1)?.when ?? 0)) throw new NewerDatabase()
  return all.filter(({ when }) => when > appliedWhen)
}

/** Where the migrator keeps its own account. */
const applied = pgSchema('drizzle').table('__drizzle_migrations', {
  id: serial().primaryKey(),
  hash: text().notNull(),
  createdAt: bigint('created_at', { mode: 'number' }).notNull(),
})
const tablesThereAre = pgSchema('pg_catalog').table('pg_tables', {
  schemaName: text('schemaname').notNull(),
  tableName: text('tablename').notNull(),
})

/** 0 for a database that had none. */
async function lastApplied(db: Db): Promise<number> {
  const isAccount = and(eq(tablesThereAre.schemaName, 'drizzle'), eq(tablesThereAre.tableName, '__drizzle_migrations'))
  const accounts = await db.select().from(tablesThereAre).where(isAccount)
  if (accounts.length === 0) return 0
  const [newest] = await db.select().from(applied).orderBy(desc(applied.createdAt)).limit(1)
  return newest?.createdAt ?? 0
}
