/** The embedded database in a folder: lock, first start, migrations, upkeep, backups. */
import fs from 'node:fs'
import path from 'node:path'
import type { PGlite } from '@electric-sql/pglite'
import { drizzle } from 'drizzle-orm/pglite'
import { migrate } from 'drizzle-orm/pglite/migrator'
import * as schema from '#db/schema/index.ts'
import { backUpTo, isBackupDue, removeOldBackups } from './backups.ts'
import { checkLogbooks } from './checkLogbooks.ts'
import { databaseIn, hasDatabase, mendReplacement } from './databaseFolder.ts'
import { renameDurably, syncTree } from './durableFiles.ts'
import { openEmbedded } from './embedded.ts'
import { lockFolder } from './folderLock.ts'
import { migrationsFolder, pendingMigrations } from './migrations.ts'
import type { Store } from './store.ts'

/** A server does this by itself; alone, the database would keep every change since its last start to be gone through again. */
const CHECKPOINT_EVERY_MS = 5 * 60_000
/** What backups are called that are made by the day or because somebody asked. */
const KEPT = 'kept'

export async function openFolder(folder: string): Promise<Store> {
  const lock = lockFolder(folder)
  let client: PGlite | undefined
  try {
    await makeIfMissing(folder)
    client = await openEmbedded(databaseIn(folder))
    const db = drizzle(client, { schema })
    const [firstPending] = await pendingMigrations(db)
    if (firstPending) {
      await backUpTo(folder, client, `before-${firstPending.tag}`)
      await migrate(db, { migrationsFolder: migrationsFolder() })
    }
    await checkLogbooks(db)
    return storeOf(folder, client, lock)
  } catch (error) {
    await client?.close()
    lock.release()
    throw error
  }
}

function storeOf(folder: string, client: PGlite, lock: ReturnType<typeof lockFolder>): Store {
  const upkeep = setInterval(() => void checkpoint(client), CHECKPOINT_EVERY_MS).unref()
  const backUp = async () => {
    await client.exec('vacuum (analyze)')
    const file = await backUpTo(folder, client, KEPT)
    removeOldBackups(folder, KEPT)
    return file
  }
  const backUpDaily = async (nowMs: number) => (isBackupDue(folder, KEPT, nowMs) ? backUp() : null)
  let closing: Promise<void> | undefined
  const close = async () => {
    clearInterval(upkeep)
    await client.close()
    lock.release()
  }
  return {
    db: drizzle(client, { schema }),
    kind: 'folder',
    announcePort: lock.announcePort,
    backUp,
    backUpDaily,
    close: () => (closing ??= close()),
  }
}

/** Made under another name and renamed when whole: a first start that was cut short leaves nothing that looks like a database. */
async function makeIfMissing(folder: string): Promise<void> {
  const unfinished = path.join(folder, 'database.unfinished')
  fs.rmSync(unfinished, { recursive: true, force: true })
  mendReplacement(folder)
  if (hasDatabase(folder)) return
  const client = await openEmbedded(unfinished)
  await migrate(drizzle(client), { migrationsFolder: migrationsFolder() })
  await client.close()
  syncTree(unfinished)
  renameDurably(unfinished, databaseIn(folder))
}

async function checkpoint(client: PGlite): Promise<void> {
  try {
    await client.exec('checkpoint')
  } catch {
    // Nothing is lost: what was not tidied up is gone through at the next start. The next query tells of a disk that failed.
  }
}
