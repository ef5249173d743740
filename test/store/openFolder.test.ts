import fs from 'node:fs'
import path from 'node:path'
import { sql } from 'drizzle-orm'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { backupsOf } from '#store/backups.ts'
import type { Db } from '#store/db.ts'
import { appendEntries, entriesUpTo } from '#store/logEntries.ts'
import { allMigrations, pendingMigrations } from '#store/migrations.ts'
import { openStore } from '#store/open.ts'
import { restoreBackup } from '#store/restore.ts'
import type { Store } from '#store/store.ts'
import { upsertStudio } from '#store/studios.ts'
import { putEmbedded } from '../support/databaseTemplates.ts'
import { aStudioRecord, anEntryRecord, entryRecords } from '../support/entryRecords.ts'
import { temporaryFolder } from '../support/temporaryFolder.ts'

let folder: string
let store: Store | undefined

beforeEach(() => {
  folder = temporaryFolder()
})
afterEach(async () => {
  vi.restoreAllMocks()
  await store?.close()
  store = undefined
  fs.rmSync(folder, { recursive: true, force: true })
})

async function opened(): Promise<Db> {
  store = await openStore({ folder })
  return store.db
}

async function openedWithStudio(): Promise<Db> {
  await putEmbedded(folder)
  const db = await opened()
  await upsertStudio(db, aStudioRecord)
  return db
}

/** The path of a file that is open in this process; its number where the system does not say. */
const fileOf = (descriptor: number): string =>
  process.platform === 'linux' ? fs.readlinkSync(`/proc/self/fd/${descriptor}`) : String(descriptor)

test('an entry is on the disk before it is acknowledged', async () => {
  const db = await openedWithStudio()
  const setting = (name: string) => sql<string>`current_setting(${name})`
  const [settings] = await db
    .select({
      fsync: setting('fsync'),
      commit: setting('synchronous_commit'),
      pages: setting('full_page_writes'),
      checksums: setting('data_checksums'),
    })
    .from(sql`(select 1) as one`)
  expect(settings).toEqual({ fsync: 'on', commit: 'on', pages: 'on', checksums: 'on' })
  const synced: string[] = []
  const fsync = fs.fsyncSync
  vi.spyOn(fs, 'fsyncSync').mockImplementation((descriptor) => {
    synced.push(fileOf(descriptor))
    fsync(descriptor)
  })
  for (let count = 1; count <= 20; count++) {
    synced.length = 0
    await appendEntries(db, 'studio', [anEntryRecord(count)])
    expect(synced.length).toBeGreaterThan(0)
    if (process.platform === 'linux') expect(synced.join()).toContain('/pg_wal/')
  }
})

test('a disk that fails is not answered with a success', async () => {
  const db = await openedWithStudio()
  await appendEntries(db, 'studio', [anEntryRecord(1)])
  vi.spyOn(fs, 'fsyncSync').mockImplementation(() => {
    throw Object.assign(new Error('i/o error'), { code: 'EIO' })
  })
  await expect(appendEntries(db, 'studio', [anEntryRecord(2)])).rejects.toThrow()
  const next = entriesUpTo(db, 'studio', 1)
  await expect(next).rejects.toMatchObject({ cause: { name: 'DatabaseStopped' } }) // and not: never answered
  vi.restoreAllMocks()
  await store!.close()
  const entries = await entriesUpTo(await opened(), 'studio', 9)
  expect(entries.slice(0, 1)).toEqual(entryRecords(1))
  expect(entries.length).toBeLessThanOrEqual(2)
})

test('a first start that was cut short is begun again', async () => {
  const unfinished = path.join(folder, 'database.unfinished')
  await putEmbedded(unfinished)
  fs.rmSync(path.join(unfinished, 'database', 'global'), { recursive: true }) // as a kill might have left it
  await putEmbedded(folder)
  expect(await pendingMigrations(await opened())).toEqual([])
  expect(fs.readdirSync(folder).toSorted()).toEqual(['database', 'in-use.json'])
})

test('a folder is refused while it is taken, and afterwards holds what was written', async () => {
  const db = await openedWithStudio()
  store!.announcePort(8_123)
  await expect(openStore({ folder })).rejects.toMatchObject({ holder: { pid: process.pid, port: 8_123 } })
  await appendEntries(db, 'studio', entryRecords(3))
  await store!.close()
  expect(fs.readdirSync(folder)).toEqual(['database'])
  expect(await entriesUpTo(await opened(), 'studio', 3)).toEqual(entryRecords(3))
})

test('before the tables are changed a dated backup is made', async () => {
  const before = allMigrations().length - 1
  await putEmbedded(folder, before)
  expect(await pendingMigrations(await opened())).toEqual([])
  const changed = allMigrations()[before]!.tag
  const dated = expect.stringMatching(new RegExp(`^\\d{4}-\\d\\d-\\d\\dT.*-before-${changed}\\.tar\\.gz$`)) as string
  expect(backupsOf(folder)).toEqual([dated])
})

test('a restore that was cut short between its two renames leaves the studio as it was', async () => {
  const db = await openedWithStudio()
  await appendEntries(db, aStudioRecord.id, entryRecords(3))
  await store!.close()
  fs.renameSync(path.join(folder, 'database'), path.join(folder, 'database.until-2026-11-25T08-00-00.000Z'))
  expect(await entriesUpTo(await opened(), aStudioRecord.id, 3)).toHaveLength(3)
  expect(fs.readdirSync(folder)).not.toContain('database.until-2026-11-25T08-00-00.000Z')
})

test('a day passes between the backups that the program makes by itself', async () => {
  await openedWithStudio()
  const first = await store!.backUpDaily!(Date.now())
  expect(first).not.toBeNull()
  const madeMs = fs.statSync(first!).mtimeMs
  expect(await store!.backUpDaily!(madeMs + 23 * 60 * 60_000)).toBeNull()
  expect(await store!.backUpDaily!(madeMs + 25 * 60 * 60_000)).not.toBeNull()
})

test('a backup is taken while the program runs, and holds what there was', async () => {
  const db = await openedWithStudio()
  await appendEntries(db, 'studio', entryRecords(2))
  const backup = await store!.backUp!()
  await appendEntries(db, 'studio', entryRecords(2, 3))
  await expect(restoreBackup(folder, backup)).rejects.toThrow('in use by process')
  await store!.close()
  const replaced = await restoreBackup(folder, backup)
  expect(fs.existsSync(path.join(replaced!, 'PG_VERSION'))).toBe(true)
  expect(await entriesUpTo(await opened(), 'studio', 9)).toEqual(entryRecords(2))
})
