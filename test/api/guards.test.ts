import { describe, expect, test } from 'vitest'
import type { Db } from '#store/db.ts'
import { anApi } from '../support/anApi.ts'
import { withDb } from '../support/databases.ts'

type Headers = Readonly<Record<string, string>>
const example = (headers: Headers) => withResponse('POST', '/api/example', headers)

async function withResponse(method: string, path: string, headers: Headers): Promise<Response> {
  let response: Response | undefined
  await withDb(async (db) => {
    response = await anApi(db).send(method, path, undefined, headers)
  })
  return response!
}

// What a browser sends: Fetch Standard (Origin), W3C Fetch Metadata (Sec-Fetch-Site).
describe('other sites are kept out', () => {
  test.each([
    ['a form on another site', { host: '127.0.0.1:4600', origin: 'https://elsewhere.example' }],
    ['a sandboxed page', { host: '127.0.0.1:4600', origin: 'null' }],
    ['another program’s page on this machine', { host: '127.0.0.1:4600', origin: 'http://127.0.0.1:8080' }],
    ['a page that hides its origin', { host: '127.0.0.1:4600', 'sec-fetch-site': 'cross-site' }],
    ['another port of the same site', { host: '127.0.0.1:4600', 'sec-fetch-site': 'same-site' }],
  ])('%s changes nothing', async (_, headers) => {
    const response = await example(headers)
    expect(response.status).toBe(403)
    expect(response.headers.get('content-type')).toContain('application/problem+json')
  })

  test.each([
    ['a name that was made to point here', 'rebound.example:4600'],
    ['a name that only begins like ours', 'localhost.elsewhere.example'],
    ['a name that only ends like ours', 'not-localhost'],
    ['another address of this machine', '192.168.1.20:4600'],
    ['an address with another written before it', '127.0.0.1@elsewhere.example'],
  ])('%s is not answered, not even to read', async (_, host) => {
    expect((await withResponse('GET', '/api/studio', { host })).status).toBe(403)
  })
})

describe('our own are let in', () => {
  test.each([
    ['the page itself', { host: '127.0.0.1:4600', origin: 'http://127.0.0.1:4600', 'sec-fetch-site': 'same-origin' }],
    ['the page by another name', { host: 'localhost:4600', origin: 'http://localhost:4600' }],
    ['the page at the other loopback', { host: '[::1]:4600', origin: 'http://[::1]:4600' }],
    ['a program, which sends neither', { host: '127.0.0.1:4600' }],
    ['whatever the case of the name', { host: 'LOCALHOST:4600' }],
  ])('%s', async (_, headers) => {
    expect((await example(headers)).status).toBe(200)
  })
})

test('every answer carries the headers that bind a page to this server', async () => {
  const { headers } = await withResponse('GET', '/healthz', { host: '127.0.0.1:4600' })
  const policy = headers.get('content-security-policy')
  expect(policy).toContain("default-src 'self'")
  expect(policy).toContain("frame-ancestors 'none'")
  expect(policy).not.toContain('unsafe')
  expect(headers.get('x-content-type-options')).toBe('nosniff')
  expect(headers.get('referrer-policy')).toBe('no-referrer')
  expect(headers.get('x-request-id')).toMatch(/^[0-9a-f-]{36}$/)
})

test('a body of more than a megabyte is refused, whether or not it says its length', () =>
  withDb(async (db) => {
    const { api, send } = anApi(db)
    const tooLong = JSON.stringify('x'.repeat(1_000_001))
    const told = await send('POST', '/api/air-readings', tooLong, { 'content-length': String(tooLong.length) })
    const untold = await api.request('/api/air-readings', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: new Blob([tooLong]).stream(),
      duplex: 'half',
    } as RequestInit)
    for (const response of [told, untold]) {
      expect(response.status).toBe(413)
      expect(await response.json()).toMatchObject({ detail: expect.stringContaining('at most 1 MB') })
    }
  }))

test('the log of requests has a line each, and nothing of what was sent', () =>
  withDb(async (db) => {
    const { lines, send } = anApi(db)
    await send('GET', '/api/log?after=3&secret=blue')
    expect(lines).toEqual([
      { event: 'request', requestId: expect.any(String), method: 'GET', path: '/api/log', status: 404, ms: 0 },
    ])
  }))

test('healthy while it runs; ready while its database answers', () =>
  withDb(async (db) => {
    const { send } = anApi(db)
    expect((await send('GET', '/healthz')).status).toBe(200)
    expect((await send('GET', '/readyz')).status).toBe(200)
    const lost = () => {
      throw new Error('connection lost')
    }
    const gone = anApi({ select: lost } as unknown as Db)
    expect((await gone.send('GET', '/readyz')).status).toBe(503)
  }))

// OpenMetrics 1.0: counters end in _total, the text ends with # EOF.
test('calls are counted by how they ended', () =>
  withDb(async (db) => {
    const { send } = anApi(db)
    await send('GET', '/healthz')
    await send('GET', '/api/studio')
    await send('GET', '/healthz', undefined, { host: 'elsewhere.example' })
    const response = await send('GET', '/metrics')
    expect(response.headers.get('content-type')).toContain('application/openmetrics-text')
    const text = await response.text()
    expect(text).toContain('wareboard_requests_total{status="2xx"} 1\n')
    expect(text).toContain('wareboard_requests_total{status="4xx"} 2\n')
    expect(text.endsWith('# EOF\n')).toBe(true)
  }))
