import fs from 'node:fs'
import path from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { renameDurably, syncTree } from './durableFiles.ts'
import { lockFolder } from './folderLock.ts'

/**
 * Puts the database of a backup in the place of the one in `folder`, which is kept beside it under its date. Nothing is
 * touched until the backup is known to open.
 * @returns where the replaced database is; undefined if there was none
 * @throws FolderInUse if a process has the folder
 */
export async function restoreBackup(folder: string, backupFile: string): Promise<string | undefined> {
  const archive = new Blob([fs.readFileSync(backupFile)], { type: 'application/x-gzip' })
  const lock = lockFolder(folder)
  try {
    const restored = path.join(folder, 'database.unfinished')
    fs.rmSync(restored, { recursive: true, force: true })
    const client = await PGlite.create({ fs: new NodeFS(restored), loadDataDir: archive })
    await client.close()
    syncTree(restored)
    const database = path.join(folder, 'database')
    const replaced = path.join(folder, `database.until-${new Date().toISOString().replaceAll(':', '-')}`)
    const hadOne = fs.existsSync(database)
    if (hadOne) renameDurably(database, replaced)
    renameDurably(restored, database)
    return hadOne ? replaced : undefined
  } finally {
    lock.release()
  }
}
