import { hc } from 'hono/client'
import { expect, test } from 'vitest'
import type { Api } from '#api/api.ts'
import { aStudioFile } from '../support/recordBuilders.ts'
import { entryRecords } from '../support/entryRecords.ts'
import { anApi } from '../support/anApi.ts'
import { withDb } from '../support/databases.ts'

test('the typed client knows every call and what it answers', () =>
  withDb(async (db) => {
    const { api, send } = anApi(db)
    await send('POST', '/api/import', aStudioFile())
    const client = hc<Api>('http://localhost', { fetch: api.request }).api
    const makers = await (await client.makers.$get()).json()
    expect(makers.map(({ name }) => name)).toEqual(['Jo', 'Mara'])
    const mould = { id: 'slump', name: 'Slump', count: 1 }
    const kept = await client.moulds[':id'].$put({ param: { id: 'slump' }, json: mould })
    expect((await kept.json()).outcome).toBe('added')
    const { places } = await (await client.log.$post({ json: entryRecords(1) })).json()
    expect(places.map(({ outcome }) => outcome)).toEqual(['known'])
    const { plan, progress } = await (await client.plan.$get()).json()
    expect([plan?.tasks, progress.doing]).toEqual([undefined, 'nothing'])
    // @ts-expect-error a call that there is not
    expect((await client.nonsense.$get()).status).toBe(404)
  }))
