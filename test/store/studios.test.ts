import { expect, expectTypeOf } from 'vitest'
import type { EntryRecord } from '#contract/entry.ts'
import { studioFile } from '#contract/studioFile.ts'
import type { StudioFile, StudioTables } from '#contract/studioFields.ts'
import { tokens } from '#db/schema/index.ts'
import { insertAirReadings, selectAirReadings } from '#store/airReadings.ts'
import { appendEntries, logPositionOf } from '#store/logEntries.ts'
import { insertPlan, latestPlan } from '#store/plans.ts'
import { removeRecord, selectRecords, upsertRecords } from '#store/records.ts'
import {
  exportStudio,
  listStudios,
  readStudioTables,
  removeStudio,
  replaceStudio,
  upsertStudio,
} from '#store/studios.ts'
import { insertToken } from '#store/tokens.ts'
import { onBothDatabases } from '../support/databases.ts'
import { entryRecords } from '../support/entryRecords.ts'
import { aStudioFile } from '../support/recordBuilders.ts'
import { aPlan } from '../support/planBuilders.ts'

const file = aStudioFile()
const { format, version, asOf, ...whole } = file
const { entries: _, ...tables } = whole

onBothDatabases('a studio comes out as it went in', async (db) => {
  expect(studioFile.parse(file)).toEqual(file) // what is tried here is what the contract allows
  expect(await replaceStudio(db, whole)).toBe('made')
  const out = await exportStudio(db, 'studio')
  expectTypeOf(out).toEqualTypeOf<(StudioTables & { readonly entries: readonly EntryRecord[] }) | undefined>()
  expect(out).toEqual(whole)
  expect(JSON.stringify(studioFile.parse({ ...out, format, version, asOf }))).toBe(
    JSON.stringify(studioFile.parse(file)),
  )
  expect(await readStudioTables(db, 'studio')).toEqual(tables)
})

onBothDatabases('lists come by id in code-unit order, whatever the order in which they went in', async (db) => {
  const makers = ['b', 'a', 'ä', 'B', 'a-1', '\u{1F3FA}', '\uFF5E'].map((id) => ({ id, name: id, skills: [] }))
  await replaceStudio(db, { ...whole, makers: [...makers, ...whole.makers] })
  const ids = (await selectRecords(db, 'studio', 'makers')).map(({ id }) => id)
  expect(ids).toEqual(ids.toSorted()) // the default order of JavaScript is that of code units
})

onBothDatabases('an import takes the place of what was there, and of what was made from it', async (db) => {
  await replaceStudio(db, whole)
  await appendEntries(db, 'studio', entryRecords(5, 4))
  await insertPlan(db, 'studio', aPlan())
  await insertToken(db, 'studio', { id: 'feed', kind: 'calendar-feed', name: 'Phone', hash: 'f00d', spotId: null })
  expect(await replaceStudio(db, { ...whole, moulds: [], designs: [], orders: [], stock: [] })).toBe('replaced')
  expect(await exportStudio(db, 'studio')).toEqual({ ...whole, moulds: [], designs: [], orders: [], stock: [] })
  expect(await logPositionOf(db, 'studio')).toBe(3)
  expect(await latestPlan(db, 'studio')).toBeUndefined()
  expect(await db.select({ id: tokens.id }).from(tokens)).toEqual([{ id: 'feed' }])
})

onBothDatabases('an import that fails leaves what was there', async (db) => {
  await replaceStudio(db, whole)
  await expect(replaceStudio(db, { ...whole, clays: [] })).rejects.toThrow()
  expect(await exportStudio(db, 'studio')).toEqual(whole)
})

onBothDatabases('studios keep apart', async (db) => {
  await replaceStudio(db, whole)
  await replaceStudio(db, { ...whole, studio: { ...whole.studio, id: 'other', name: 'Another' } })
  expect(await removeStudio(db, 'other')).toBe('removed')
  expect(await exportStudio(db, 'other')).toBeUndefined()
  expect(await exportStudio(db, 'studio')).toEqual(whole)
  expect(await listStudios(db)).toEqual([{ id: 'studio', name: 'Studio', zone: 'Europe/London', logPosition: 3 }])
})

onBothDatabases('the rules of the house can be changed', async (db) => {
  await replaceStudio(db, whole)
  const studio = { ...whole.studio, rules: { ...whole.studio.rules, altitudeM: 1_650.5 } }
  await upsertStudio(db, studio)
  expect(await readStudioTables(db, 'studio')).toEqual({ ...tables, studio })
  expect(await logPositionOf(db, 'studio')).toBe(3)
})

onBothDatabases('a record takes the place of the one with its id, its lists too', async (db) => {
  await replaceStudio(db, whole)
  const [box, tray] = whole.designs as [StudioFile['designs'][0], StudioFile['designs'][0]]
  const changed = { ...tray, name: 'Tea tray', parts: tray.parts.toReversed(), steps: tray.steps.slice(0, 2) }
  expect(await upsertRecords(db, 'studio', 'designs', [changed])).toBe('saved')
  expect(await selectRecords(db, 'studio', 'designs')).toEqual([box, changed])
})

onBothDatabases('a field that is left out is taken away', async (db) => {
  await replaceStudio(db, whole)
  const [bisque, glaze] = whole.firingSchedules as [StudioFile['firingSchedules'][0], StudioFile['firingSchedules'][0]]
  const { cone: _, ...coneless } = bisque
  await upsertRecords(db, 'studio', 'firingSchedules', [coneless])
  expect(await selectRecords(db, 'studio', 'firingSchedules')).toEqual([coneless, glaze])
})

onBothDatabases('a record that names what is not there is not saved', async (db) => {
  await replaceStudio(db, whole)
  const kiln = { ...whole.kilns[0]!, supplyId: 'gone' }
  expect(await upsertRecords(db, 'studio', 'kilns', [kiln])).toBe('missing')
  expect(await selectRecords(db, 'studio', 'kilns')).toEqual(whole.kilns)
})

onBothDatabases('a record goes with what is its own, unless others need it', async (db) => {
  await replaceStudio(db, whole)
  expect(await removeRecord(db, 'studio', 'clays', 'stoneware')).toBe('needed')
  expect(await removeRecord(db, 'studio', 'orders', 'fair')).toBe('removed')
  expect(await removeRecord(db, 'studio', 'orders', 'fair')).toBe('not-there')
  expect(await removeRecord(db, 'studio', 'designs', 'box')).toBe('removed')
  expect(await readStudioTables(db, 'studio')).toEqual({ ...tables, orders: [], designs: [whole.designs[1]] })
})

onBothDatabases('a reading sent twice is one, a late one is welcome, an unknown spot is not', async (db) => {
  await replaceStudio(db, whole)
  const late = { spotId: 'rack', at: '2026-02-27T08:00:00.000Z', tempC: 16, rh: 0.6 }
  expect(await insertAirReadings(db, 'studio', [...whole.airReadings, late])).toBe(1)
  expect(await selectAirReadings(db, 'studio')).toEqual([late, ...whole.airReadings])
  expect(await selectAirReadings(db, 'studio', '2026-03-01T08:05:00.000Z')).toEqual([whole.airReadings[1]])
  expect(await insertAirReadings(db, 'studio', [{ ...late, spotId: 'moon' }])).toBe('missing')
})

onBothDatabases('an import of thousands of rows in every long table', async (db) => {
  const long = {
    ...whole,
    airReadings: Array.from({ length: 5_000 }, (_, i) => ({
      spotId: 'rack',
      at: new Date(Date.UTC(2026, 0, 1, 0, i)).toISOString(),
      tempC: 15 + (i % 50) / 10,
      rh: 0.5,
    })),
    designs: Array.from({ length: 400 }, (_, i) => ({ ...whole.designs[0]!, id: `d${String(i).padStart(4, '0')}` })),
    orders: [],
    stock: [],
    entries: [],
  }
  await replaceStudio(db, long)
  expect(await exportStudio(db, 'studio')).toEqual(long)
})
