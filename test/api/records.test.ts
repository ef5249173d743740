import { describe, expect, test } from 'vitest'
import { aStudioFile } from '../support/recordBuilders.ts'
import { anApi, apiNow } from '../support/anApi.ts'
import { onBothDatabases, withDb } from '../support/databases.ts'
import type { Db } from '#store/db.ts'

async function aFilledApi(db: Db) {
  const filled = anApi(db)
  const file = aStudioFile()
  expect((await filled.send('POST', '/api/import', file)).status).toBe(200)
  return { ...filled, file }
}

const paths = {
  makers: 'makers',
  hours: 'hours',
  busyTimes: 'busy-times',
  spots: 'spots',
  clays: 'clays',
  glazes: 'glazes',
  supplies: 'supplies',
  kilns: 'kilns',
  moulds: 'moulds',
  firingSchedules: 'firing-schedules',
  designs: 'designs',
  orders: 'orders',
  stock: 'stock',
  pins: 'pins',
} as const

describe('records', () => {
  test.each(Object.entries(paths))('%s come back as they were sent', (name, path) =>
    withDb(async (db) => {
      const { send, file } = await aFilledApi(db)
      const records = await (await send('GET', `/api/${path}`)).json()
      const sent = file[name as keyof typeof paths].toSorted((a, b) => (a.id < b.id ? -1 : 1))
      expect(records).toEqual(sent)
      for (const record of sent) {
        const kept = await send('PUT', `/api/${path}/${record.id}`, record)
        expect(await kept.json()).toEqual({ outcome: 'changed' })
      }
      expect(await (await send('GET', `/api/${path}`)).json()).toEqual(sent)
    }),
  )

  onBothDatabases('one that is added is in the logbook, and a plan is asked for', async (db) => {
    const { send, asked } = await aFilledApi(db)
    const before = asked.length
    const kept = await send('PUT', '/api/moulds/slump', { id: 'slump', name: 'Slump, oval', count: 2 })
    expect(await kept.json()).toEqual({ outcome: 'added' })
    expect(asked.length).toBe(before + 1)
    const { entries } = (await (await send('GET', '/api/log?limit=1')).json()) as { entries: { entry: unknown }[] }
    expect(entries[0]?.entry).toMatchObject({
      kind: 'studio-edited',
      happenedAt: apiNow,
      body: { what: 'added “Slump, oval”' },
    })
  })

  test('one that names what is not there is refused, with the field', () =>
    withDb(async (db) => {
      const { send, file } = await aFilledApi(db)
      const response = await send('PUT', '/api/hours/mara-making', { ...file.hours[0], makerId: 'nobody' })
      expect(response.status).toBe(422)
      expect(await response.json()).toMatchObject({
        title: 'Not valid',
        fields: [{ path: 'makerId', message: expect.stringContaining('“nobody”') }],
      })
    }))

  test('one that is still used is not removed, and it is said by what', () =>
    withDb(async (db) => {
      const { send } = await aFilledApi(db)
      const response = await send('DELETE', '/api/glazes/blue')
      expect(response.status).toBe(409)
      expect(((await response.json()) as { detail: string }).detail).toMatch(/is still used by .*“Spring fair”/)
      expect(((await (await send('GET', '/api/glazes')).json()) as unknown[]).length).toBe(2)
    }))

  test('a maker goes with their hours', () =>
    withDb(async (db) => {
      const { send } = await aFilledApi(db)
      expect((await send('DELETE', '/api/pins/pin')).status).toBe(200)
      expect((await send('DELETE', '/api/makers/mara')).status).toBe(200)
      expect(await (await send('GET', '/api/hours')).json()).toEqual([])
    }))

  test('one that is not there cannot be removed', () =>
    withDb(async (db) => {
      const { send } = await aFilledApi(db)
      const response = await send('DELETE', '/api/designs/no-such')
      expect(response.status).toBe(404)
      expect(await response.json()).toMatchObject({ detail: 'There is no such design.' })
    }))

  test('the id in the address is that of the record', () =>
    withDb(async (db) => {
      const { send, file } = await aFilledApi(db)
      expect((await send('PUT', '/api/moulds/other', file.moulds[0])).status).toBe(422)
    }))

  test('a slip of the pen is told by its field', () =>
    withDb(async (db) => {
      const { send } = await aFilledApi(db)
      const response = await send('PUT', '/api/moulds/slump', { id: 'slump', name: 'Slump', count: '2', colour: 'red' })
      expect(response.status).toBe(422)
      expect(await response.json()).toMatchObject({
        fields: expect.arrayContaining([
          expect.objectContaining({ path: 'count' }),
          expect.objectContaining({ path: 'colour' }),
        ]),
      })
    }))
})

// Once the database's to refuse, and then a fault of ours (found by 5,000 bad requests).
test.each(['\ud800', 'a\u0000b', 'two\nlines'])('a name of %j is told to be none', (name) =>
  withDb(async (db) => {
    const { send } = await aFilledApi(db)
    const response = await send('PUT', '/api/moulds/slump', { id: 'slump', name, count: 1 })
    expect(response.status).toBe(422)
    expect(await response.json()).toMatchObject({ fields: [{ path: 'name' }] })
  }),
)

describe('the studio', () => {
  test('is begun, and then changed', () =>
    withDb(async (db) => {
      const { send } = anApi(db)
      const { studio } = aStudioFile()
      expect(await (await send('PUT', '/api/studio', studio)).json()).toEqual({ outcome: 'added' })
      expect(await (await send('PUT', '/api/studio', { ...studio, name: 'The Shed' })).json()).toEqual({
        outcome: 'changed',
      })
      expect(await (await send('GET', '/api/studio')).json()).toEqual({ ...studio, name: 'The Shed' })
    }))

  test('there is one', () =>
    withDb(async (db) => {
      const { send } = anApi(db)
      const { studio } = aStudioFile()
      await send('PUT', '/api/studio', studio)
      expect((await send('PUT', '/api/studio', { ...studio, id: 'second' })).status).toBe(409)
    }))

  test('before it is begun, that is what every call says', () =>
    withDb(async (db) => {
      const { send } = anApi(db)
      for (const path of ['/api/studio', '/api/plan', '/api/log', '/api/export', '/api/orders']) {
        const response = await send('GET', path)
        expect(response.status).toBe(404)
        expect(((await response.json()) as { detail: string }).detail).toContain('load the example')
      }
    }))
})
