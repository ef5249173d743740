import { eq } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { logEntries, studios } from '#db/schema/index.ts'
import type { Db } from '#store/db.ts'
import { appendEntries, entriesAfter, entriesBefore, entriesUpTo, logPositionOf } from '#store/logEntries.ts'
import type { EntryPlace } from '#store/logEntries.ts'
import { openServer } from '#store/openServer.ts'
import { upsertStudio } from '#store/studios.ts'
import { onBothDatabases, withServerUrl } from '../support/databases.ts'
import { aStudioRecord, anEntryRecord, entryRecords } from '../support/entryRecords.ts'

const studio = aStudioRecord
const withStudio = (db: Db, id = 'studio') => upsertStudio(db, { ...studio, id })
const outcomesOf = (places: readonly EntryPlace[] | string) =>
  typeof places === 'string' ? places : places.map(({ outcome, position }) => `${outcome} ${position}`)

onBothDatabases('entries get positions from 1 in the order given', async (db) => {
  await withStudio(db)
  expect(outcomesOf(await appendEntries(db, 'studio', entryRecords(3)))).toEqual(['added 1', 'added 2', 'added 3'])
  expect(await logPositionOf(db, 'studio')).toBe(3)
  expect(await entriesUpTo(db, 'studio', 2)).toEqual(entryRecords(2))
})

onBothDatabases('an entry sent again stands where it stood', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', entryRecords(2))
  const again = await appendEntries(db, 'studio', [anEntryRecord(3), anEntryRecord(1), anEntryRecord(3)])
  expect(outcomesOf(again)).toEqual(['added 3', 'known 1', 'known 3'])
  expect(await logPositionOf(db, 'studio')).toBe(3)
})

onBothDatabases('another entry under a known id is not taken, and holds nothing else up', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', [anEntryRecord(1)])
  const other = anEntryRecord(1, { body: { runId: 'run', cover: 'sealed' } })
  expect(outcomesOf(await appendEntries(db, 'studio', [other, anEntryRecord(2)]))).toEqual(['differs 1', 'added 2'])
  expect(await entriesUpTo(db, 'studio', 2)).toEqual(entryRecords(2))
})

onBothDatabases('the order of fields in a body says nothing', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', [anEntryRecord(1, { body: { runId: 'run', cover: 'loose' } })])
  const turned = anEntryRecord(1, { body: { cover: 'loose', runId: 'run' } })
  expect(outcomesOf(await appendEntries(db, 'studio', [turned]))).toEqual(['known 1'])
})

onBothDatabases('every field of an entry comes back as it went in', async (db) => {
  await withStudio(db)
  const entry = anEntryRecord(1, {
    happenedAt: '0987-12-31T23:59:59.999Z',
    roughMin: 90,
    deviceSeq: Number.MAX_SAFE_INTEGER,
    by: 'mara',
    kind: 'temperature-read',
    body: { firingId: 'brûlé-窯', tempC: 0.1 + 0.2 },
    hint: { planId: 'plan', stepId: 'join' },
  })
  await appendEntries(db, 'studio', [entry])
  expect(await entriesUpTo(db, 'studio', 1)).toEqual([entry])
})

onBothDatabases('the same id in two studios is two entries', async (db) => {
  await withStudio(db)
  await withStudio(db, 'other')
  await appendEntries(db, 'studio', entryRecords(2))
  expect(outcomesOf(await appendEntries(db, 'other', [anEntryRecord(2)]))).toEqual(['added 1'])
  expect(await entriesUpTo(db, 'other', 9)).toEqual([anEntryRecord(2)])
})

onBothDatabases('without a studio nothing is added', async (db) => {
  expect(await appendEntries(db, 'nowhere', entryRecords(1))).toBe('no-such-studio')
  expect(await db.select().from(logEntries)).toEqual([])
})

onBothDatabases('the logbook is read forwards from a position and backwards', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', entryRecords(5))
  expect((await entriesAfter(db, 'studio', 2, 2)).map(({ position }) => position)).toEqual([3, 4])
  expect((await entriesBefore(db, 'studio', 5, 3)).map(({ position }) => position)).toEqual([4, 3, 2])
})

onBothDatabases('an entry can be neither changed nor removed', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', entryRecords(1))
  const refused = { cause: { message: expect.stringContaining('never changed or removed') } }
  const change = db.transaction(async (db) => db.update(logEntries).set({ roughMin: 5 }).returning())
  await expect(change).rejects.toMatchObject(refused)
  await expect(db.transaction(async (db) => db.delete(logEntries).returning())).rejects.toMatchObject(refused)
  expect(await entriesUpTo(db, 'studio', 1)).toEqual(entryRecords(1))
})

onBothDatabases('the logbook goes with its studio', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', entryRecords(1))
  await db.delete(studios).where(eq(studios.id, 'studio'))
  expect(await db.select().from(logEntries)).toEqual([])
})

onBothDatabases('five thousand entries go in at once', async (db) => {
  await withStudio(db)
  await appendEntries(db, 'studio', entryRecords(5_000))
  expect(await logPositionOf(db, 'studio')).toBe(5_000)
  expect(await entriesUpTo(db, 'studio', 5_000)).toEqual(entryRecords(5_000))
})

test('writers at the same time leave no gap and take no position twice', async () => {
  await withServerUrl(async (url) => {
    const stores = await Promise.all([openServer(url), openServer(url)])
    await withStudio(stores[0].db)
    const sent = Array.from({ length: 40 }, (_, i) =>
      appendEntries(stores[i % 2]!.db, 'studio', entryRecords(3, 2 * i + 1)),
    )
    await Promise.all(sent) // each shares an entry with the one before it
    const rows = await entriesAfter(stores[0].db, 'studio', 0, 1_000)
    expect(rows.map(({ position }) => position)).toEqual(Array.from({ length: 81 }, (_, i) => i + 1))
    await Promise.all(stores.map((store) => store.close()))
  })
})
