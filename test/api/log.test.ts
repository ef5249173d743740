import { expect, test } from 'vitest'
import { anEntryRecord, entryRecords } from '../support/entryRecords.ts'
import { aStudioFile } from '../support/recordBuilders.ts'
import { anApi } from '../support/anApi.ts'
import { onBothDatabases, withDb } from '../support/databases.ts'
import type { Db } from '#store/db.ts'

async function anEmptyLog(db: Db) {
  const made = anApi(db)
  await made.send('POST', '/api/import', aStudioFile({ entries: [] }))
  made.asked.length = 0
  return made
}

onBothDatabases('one tap, and then all that a device did while it was away', async (db) => {
  const { send, asked } = await anEmptyLog(db)
  const tap = await send('POST', '/api/log', anEntryRecord(1))
  expect(await tap.json()).toEqual({ logPosition: 1, places: [{ id: 'entry-1', outcome: 'added', position: 1 }] })
  const many = (await (await send('POST', '/api/log', entryRecords(40))).json()) as {
    logPosition: number
    places: { outcome: string }[]
  }
  expect(many.logPosition).toBe(40)
  expect(many.places.map(({ outcome }) => outcome)).toEqual(['known', ...Array.from({ length: 39 }, () => 'added')])
  expect(asked).toEqual(['studio', 'studio'])
})

onBothDatabases('what is sent again is there once, and asks for no plan', async (db) => {
  const { send, asked } = await anEmptyLog(db)
  await send('POST', '/api/log', entryRecords(3))
  const again = (await (await send('POST', '/api/log', entryRecords(3))).json()) as { logPosition: number }
  expect(again.logPosition).toBe(3)
  expect(asked).toHaveLength(1)
})

onBothDatabases('read onwards from a position, or back from the newest', async (db) => {
  const { send } = await anEmptyLog(db)
  await send('POST', '/api/log', entryRecords(10))
  const positions = async (query: string) => {
    const page = (await (await send('GET', `/api/log?${query}`)).json()) as { entries: { position: number }[] }
    return page.entries.map(({ position }) => position)
  }
  expect(await positions('after=7')).toEqual([8, 9, 10])
  expect(await positions('limit=2')).toEqual([10, 9])
  expect(await positions('before=3')).toEqual([2, 1])
})

test('of many, one that is not well formed keeps all out, and is told by its place', () =>
  withDb(async (db) => {
    const { send } = await anEmptyLog(db)
    const entries = [anEntryRecord(1), { ...anEntryRecord(2), kind: 'vanished' }]
    const response = await send('POST', '/api/log', entries)
    expect(response.status).toBe(422)
    expect(((await response.json()) as { fields: { path: string }[] }).fields[0]?.path).toMatch(/^\[1\]/)
    expect(((await (await send('GET', '/api/log')).json()) as { logPosition: number }).logPosition).toBe(0)
  }))

test('screens are told', () =>
  withDb(async (db) => {
    const heard: unknown[] = []
    const happenings = { tell: (...told: unknown[]) => heard.push(told), listen: () => () => {} }
    const { send } = anApi(db, { happenings })
    await send('POST', '/api/import', aStudioFile({ entries: [] }))
    await send('POST', '/api/log', entryRecords(2))
    expect(heard.at(-1)).toEqual(['studio', { kind: 'logged', logPosition: 2 }])
  }))
