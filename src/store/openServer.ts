/** A PostgreSQL server, shared by as many processes as wanted. */
import { drizzle } from 'drizzle-orm/postgres-js'
import { migrate } from 'drizzle-orm/postgres-js/migrator'
import postgres from 'postgres'
import * as schema from '#db/schema/index.ts'
import { checkLogbooks } from './checkLogbooks.ts'
import { migrationsFolder, pendingMigrations } from './migrations.ts'
import type { Store } from './store.ts'

/** Any number that no other program on the same database is likely to lock. */
const MIGRATION_LOCK = 7_305_914_226_118
const CONNECTIONS = 10

export async function openServer(url: string): Promise<Store> {
  await migrateServer(url)
  const client = connect(url, CONNECTIONS)
  const db = drizzle(client, { schema })
  const close = () => client.end({ timeout: 5 })
  try {
    await checkLogbooks(db)
  } catch (error) {
    await close()
    throw error
  }
  return { db, kind: 'server', announcePort: () => {}, backUp: null, backUpDaily: null, close }
}

/** One process at a time: several may be started at once. The lock is the connection's, and ends with it. */
async function migrateServer(url: string): Promise<void> {
  const client = connect(url, 1)
  try {
    const db = drizzle(client, { schema })
    await client`select pg_advisory_lock(${MIGRATION_LOCK})`
    const pending = await pendingMigrations(db)
    if (pending.length > 0) await migrate(db, { migrationsFolder: migrationsFolder() })
  } finally {
    await client.end({ timeout: 5 })
  }
}

const connect = (url: string, max: number) => postgres(url, { max, onnotice: () => {} })
