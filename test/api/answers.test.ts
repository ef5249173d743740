import { drizzle } from 'drizzle-orm/postgres-js'
import postgres from 'postgres'
import { describe, expect, test } from 'vitest'
import type { Problem } from '#api/problem.ts'
import type { Db } from '#store/db.ts'
import * as schema from '../../db/schema/index.ts'
import { anApi } from '../support/anApi.ts'
import { withDb } from '../support/databases.ts'
import { entryRecords } from '../support/entryRecords.ts'
import { aStudioFile } from '../support/recordBuilders.ts'

// RFC 9110: 15.5.6 (405 Method Not Allowed) and 10.2.1 (Allow).
test.each([
  ['DELETE', '/api/export', 'GET, HEAD'],
  ['PUT', '/api/log', 'GET, POST, HEAD'],
  ['POST', '/api/kilns/round', 'PUT, DELETE'],
  ['OPTIONS', '/api/studio', 'GET, PUT, HEAD'],
])('%s %s is told what the address can be asked', (method, path, allowed) =>
  withDb(async (db) => {
    const response = await anApi(db).send(method, path)
    expect([response.status, response.headers.get('allow')]).toEqual([405, allowed])
    expect(response.headers.get('content-type')).toBe('application/problem+json')
    expect(((await response.json()) as Problem).detail).toContain(`not by ${method}.`)
  }),
)

test('an address that is none stays one that is not there', () =>
  withDb(async (db) => expect((await anApi(db).send('DELETE', '/api/nothing')).status).toBe(404)))

describe('what is wrong with a query is said in a sentence', () => {
  test.each([
    ['/api/log?limit=0', 'The number of entries must be a whole number from 1 to 5000, not 0.'],
    ['/api/log?limit=many', 'The number of entries must be a whole number from 1 to 5000, not “many”.'],
    ['/api/log?after=1.5', /^The position in the log must be a whole number .* not “1\.5”\.$/],
    ['/api/runs?all=perhaps', 'all must be one of: yes, no, not “perhaps”.'],
    ['/api/plans?limit=1000', 'The number of plans must be a whole number from 1 to 200, not 1000.'],
    [`/api/runs/${'x'.repeat(500)}`, /^The name of the run must be 1 to 400 characters/],
  ])('%s', (path, sentence) =>
    withDb(async (db) => {
      const response = await anApi(db).send('GET', path)
      expect(response.status).toBe(422)
      expect(((await response.json()) as Problem).detail).toMatch(sentence)
    }),
  )
})

test('as many entries as may be sent at once are no more than a body may hold', () =>
  withDb(async (db) => {
    const { send } = anApi(db)
    await send('POST', '/api/import', aStudioFile({ entries: [] }))
    const entries = entryRecords(5_000).map((entry) => ({ ...entry, deviceId: 'a-tablet-by-the-wedging-table' }))
    expect(JSON.stringify(entries).length).toBeGreaterThan(1_000_000)
    expect((await send('POST', '/api/log', entries)).status).toBe(200)
  }))

test('who hangs up in the middle of a call is no fault', () =>
  withDb(async (db) => {
    const { api, lines } = anApi(db)
    const hungUp = Object.assign(new Error('aborted'), { code: 'ECONNRESET' }) // as Node tells it
    const body = new ReadableStream({ pull: (controller) => controller.error(hungUp) })
    const headers = { 'content-type': 'application/json' }
    const response = await api.request('/api/log', { method: 'POST', headers, body, duplex: 'half' } as RequestInit)
    expect(response.status).toBe(400)
    expect(lines.map(({ event }) => event)).toEqual(['request'])
  }))

describe('a database server that is away', () => {
  const client = postgres('postgres://nobody@127.0.0.1:1/nothing')
  const db = drizzle(client, { schema }) as unknown as Db

  test('is said to be, and what to do', async () => {
    const { send, lines } = anApi(db)
    const response = await send('GET', '/api/studio')
    expect(response.status).toBe(503)
    expect(((await response.json()) as Problem).detail).toMatch(/cannot be reached.*What you sent was not kept\./)
    expect(lines).toContainEqual(expect.objectContaining({ event: 'fault' }))
  })

  test('ends the stream of a screen, which comes back by itself', async () => {
    const response = await anApi(db).send('GET', '/api/events')
    expect(response.status).toBe(200)
    expect(await response.text()).toContain('retry: 2000')
  })
})
