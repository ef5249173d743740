/** Dated copies of the embedded database, each one file that holds all of it. */
import fs from 'node:fs'
import path from 'node:path'
import type { PGlite } from '@electric-sql/pglite'
import { writeDurably } from './durableFiles.ts'

/** Of the backups made day by day; those made before a change of the tables are kept until somebody removes them. */
const KEPT_COUNT = 14
const ENDING = '.tar.gz'

/** Writes `backups/DATE-LABEL.tar.gz` in `folder` and returns its path. */
export async function backUpTo(folder: string, client: PGlite, label: string): Promise<string> {
  const backups = path.join(folder, 'backups')
  fs.mkdirSync(backups, { recursive: true })
  await client.exec('checkpoint')
  const archive = await client.dumpDataDir('gzip')
  const file = path.join(backups, `${new Date().toISOString().replaceAll(':', '-')}-${label}${ENDING}`)
  writeDurably(file, new Uint8Array(await archive.arrayBuffer()))
  return file
}

/** Whether the newest backup of this label is a day old, or there is none. */
export function isBackupDue(folder: string, label: string, nowMs: number): boolean {
  const newest = backupsOf(folder, label).at(-1)
  return newest === undefined || nowMs - fs.statSync(path.join(folder, 'backups', newest)).mtimeMs >= DAY_MS
}

const DAY_MS = 24 * 60 * 60_000

export function removeOldBackups(folder: string, label: string): void {
  for (const name of backupsOf(folder, label).slice(0, -KEPT_COUNT)) fs.rmSync(path.join(folder, 'backups', name))
}

/** File names, oldest first. */
export function backupsOf(folder: string, label = ''): readonly string[] {
  const backups = path.join(folder, 'backups')
  if (!fs.existsSync(backups)) return []
  return fs
    .readdirSync(backups)
    .filter((name) => name.endsWith(`${label}${ENDING}`))
    .toSorted()
}
