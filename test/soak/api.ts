/** Bad requests by the thousand: whatever is sent, the answer is a refusal that tells no more than it should. */
import fs from 'node:fs'
import { seededRng, type Rng } from '#core/rng.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'
import type { Db } from '#store/db.ts'
import { openFolder } from '#store/openFolder.ts'
import { anApi } from '../support/anApi.ts'
import { temporaryFolder } from '../support/temporaryFolder.ts'

export async function run(cases: number, seed: number): Promise<{ failures: number; report: string }> {
  const folder = temporaryFolder()
  const store = await openFolder(folder)
  try {
    const faults = await sendBadRequests(store.db, cases, seed)
    return { failures: faults.length, report: faults.join('\n') }
  } finally {
    await store.close()
    fs.rmSync(folder, { recursive: true, force: true })
  }
}

type Sent = { readonly method: string; readonly path: string; readonly body: string | undefined; readonly type: string }

/** @returns the faults of the answers: a status of 500 or more, a stack, or an answer that is no problem document */
export async function sendBadRequests(db: Db, cases: number, seed: number): Promise<string[]> {
  const { send } = anApi(db)
  await send('POST', '/api/example')
  const rng = seededRng(seed)
  const file = exampleStudioFile('2026-03-02')
  const faults: string[] = []
  for (let i = 0; i < cases; i++) {
    const request = aBadRequest(rng, file)
    const { method, path, body, type } = request
    const response = await send(method, path, body, { 'content-type': type })
    const fault = faultOf(response.status, response.headers.get('content-type'), await response.text())
    if (fault) faults.push(`case ${i}: ${fault}: ${JSON.stringify(request).slice(0, 400)}`)
  }
  return faults
}

function faultOf(status: number, type: string | null, text: string): string | undefined {
  if (status >= 500) return `status ${status}`
  if (/\n\s+at |node_modules|\.ts:\d+|select .* from/i.test(text)) return 'a stack or a query shows'
  if (status >= 400 && !type?.startsWith('application/problem+json')) return `no problem document but ${type}`
  return undefined
}

const tables = [
  'makers',
  'hours',
  'busyTimes',
  'spots',
  'clays',
  'glazes',
  'supplies',
  'kilns',
  'moulds',
  'firingSchedules',
  'designs',
  'orders',
  'stock',
] as const
const pathOf = (table: string) => table.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

function aBadRequest(rng: Rng, file: ReturnType<typeof exampleStudioFile>): Sent {
  const pick = <Value>(values: readonly Value[]): Value => values[rng.int(values.length)]!
  const json = 'application/json'
  const table = pick(tables)
  const record = pick(file[table] as readonly { readonly id: string }[])
  const entry = pick(file.entries)
  const kinds: (() => Sent)[] = [
    () => ({
      method: 'PUT',
      path: `/api/${pathOf(table)}/${record.id}`,
      body: JSON.stringify(spoilt(record, rng)),
      type: json,
    }),
    () => ({ method: 'PUT', path: `/api/${pathOf(table)}/${oddText(rng)}`, body: JSON.stringify(record), type: json }),
    () => ({ method: 'POST', path: '/api/log', body: JSON.stringify(spoilt(entry, rng)), type: json }),
    () => ({ method: 'POST', path: '/api/log', body: JSON.stringify([entry, spoilt(entry, rng)]), type: json }),
    () => ({
      method: 'POST',
      path: '/api/air-readings',
      body: JSON.stringify(spoilt({ spotId: 'x', at: entry.happenedAt, tempC: 18, rh: 0.5 }, rng)),
      type: json,
    }),
    () => ({
      method: 'POST',
      path: '/api/import?replace=yes',
      body: cut(JSON.stringify(spoilt({ ...file, entries: [], airReadings: [] }, rng)), rng),
      type: json,
    }),
    () => ({
      method: 'POST',
      path: '/api/what-if',
      body: JSON.stringify({ changes: [spoilt({ kind: 'without-order', orderId: 'x' }, rng)] }),
      type: json,
    }),
    () => ({
      method: 'POST',
      path: '/api/promise',
      body: JSON.stringify({ order: spoilt(pick(file.orders), rng) }),
      type: json,
    }),
    () => ({ method: 'POST', path: '/api/log', body: cut(JSON.stringify(entry), rng), type: json }),
    () => ({
      method: 'POST',
      path: '/api/log',
      body: oddText(rng),
      type: pick([json, 'text/plain', 'application/x-www-form-urlencoded', '']),
    }),
    () => ({
      method: 'GET',
      path: `/api/log?${pick(['after', 'before', 'limit', 'x'])}=${oddText(rng)}`,
      body: undefined,
      type: '',
    }),
    () => ({ method: 'GET', path: `/api/air-readings?from=${oddText(rng)}`, body: undefined, type: '' }),
    () => ({
      method: 'GET',
      path: `/api/${pick(['plans', 'runs', 'designs'])}/${oddText(rng)}`,
      body: undefined,
      type: '',
    }),
    () => ({
      method: 'DELETE',
      path: `/api/${pathOf(table)}/${pick([record.id, oddText(rng)])}`,
      body: undefined,
      type: '',
    }),
    () => ({
      method: pick(['PATCH', 'PUT', 'DELETE', 'OPTIONS', 'POST']),
      path: `/${oddText(rng)}`,
      body: '{}',
      type: json,
    }),
  ]
  return pick(kinds)()
}

/** The same thing with one to three of its values, somewhere within, turned into something else, doubled or gone. */
function spoilt(value: unknown, rng: Rng): unknown {
  const copy: unknown = structuredClone(value)
  for (let times = 1 + rng.int(3); times > 0; times--) spoilOne(copy, rng)
  return copy
}

function spoilOne(value: unknown, rng: Rng): void {
  if (typeof value !== 'object' || value === null) return
  const holder = value as Record<string, unknown>
  const keys = Object.keys(holder)
  const key = keys[rng.int(keys.length)]
  if (key === undefined) return
  if (typeof holder[key] === 'object' && holder[key] !== null && rng.next() < 0.6) return spoilOne(holder[key], rng)
  const way = rng.int(10)
  if (way === 0) delete holder[key]
  else if (way === 1) holder[oddText(rng)] = holder[key]
  else holder[key] = oddValue(rng)
}

function oddValue(rng: Rng): unknown {
  const values = [
    null,
    true,
    0,
    -1,
    1e9,
    1e308,
    2_147_483_648,
    -2_147_483_649,
    0.1,
    '',
    [],
    {},
    [[]],
    oddText(rng),
    'x'.repeat(5_000),
  ]
  return values[rng.int(values.length)]
}

const oddTexts = [
  '',
  ' ',
  '%00',
  '%',
  '%ff',
  '..%2f..%2fetc',
  "'; drop table studios; --",
  '<script>alert(1)</script>',
  '💥',
  '\u0000',
  '\ud800',
  '__proto__',
  'constructor',
  'null',
  'NaN',
  '1e999',
  '-1',
  '9999999999999999999',
  '2026-02-30T00:00:00.000Z',
  '{"a":',
  '[',
  '"',
  'a/b',
] as const

const oddText = (rng: Rng): string => oddTexts[rng.int(oddTexts.length)]!

const cut = (text: string, rng: Rng): string => text.slice(0, rng.int(text.length))
