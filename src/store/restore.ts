import fs from 'node:fs'
import path from 'node:path'
import { gunzipSync } from 'node:zlib'
import { PGlite } from '@electric-sql/pglite'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { mendReplacement, replaceDatabase } from './databaseFolder.ts'
import { syncTree } from './durableFiles.ts'
import { lockFolder } from './folderLock.ts'

/** The file does not open as a database: nothing was touched. */
export class NotABackup extends Error {
  override readonly name = 'NotABackup'

  constructor(file: string, cause: unknown) {
    super(`${file} is not a backup that can be opened. Nothing was changed.`, { cause })
  }
}

/**
 * Puts the database of a backup in the place of the one in `folder`, which is kept beside it under its date. Nothing is
 * touched until the backup is known to open.
 * @returns where the replaced database is; undefined if there was none
 * @throws FolderInUse if a process has the folder
 * @throws NotABackup
 */
export async function restoreBackup(folder: string, backupFile: string): Promise<string | undefined> {
  const archive = archiveIn(backupFile)
  const lock = lockFolder(folder)
  try {
    mendReplacement(folder)
    const restored = path.join(folder, 'database.unfinished')
    fs.rmSync(restored, { recursive: true, force: true })
    await unpack(archive, restored).catch((error: unknown) => {
      fs.rmSync(restored, { recursive: true, force: true })
      throw new NotABackup(backupFile, error)
    })
    syncTree(restored)
    return replaceDatabase(folder, restored)
  } finally {
    lock.release()
  }
}

/** Unpacked here, since what the database does with a damaged file ends the process. */
function archiveIn(backupFile: string): Blob {
  const packed = fs.readFileSync(backupFile)
  try {
    return new Blob([gunzipSync(packed)], { type: 'application/x-tar' })
  } catch (error) {
    throw new NotABackup(backupFile, error)
  }
}

async function unpack(archive: Blob, folder: string): Promise<void> {
  const client = await PGlite.create({ fs: new NodeFS(folder), loadDataDir: archive })
  await client.close()
}
