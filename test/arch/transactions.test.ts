import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'

/**
 * Inside a transaction only the transaction may be used: the embedded database has one connection, and a query on the outer `db`
 * would wait for the end of the transaction that waits for it. So the transaction takes its name, and nothing else is awaited.
 */
const opening = /\.transaction\(\s*(?:async\s*)?(?:\(\s*([^)]*?)\s*\)|(\w+))\s*=>/g
const outside = /\b(?:fetch|setTimeout|setInterval|postMessage|pause|sleep)\s*\(|\bnew (?:Worker|Promise)\b/

function faultsOf(source: string): string[] {
  return [...source.matchAll(opening)].flatMap((match) => {
    const name = (match[1] ?? match[2] ?? '').replace(/:.*$/, '')
    const body = bodyFrom(source, match.index + match[0].length)
    return [
      ...(name === 'db' ? [] : [`the transaction is called “${name}”, not “db”`]),
      ...(outside.test(body) ? [`it waits for something else: ${outside.exec(body)![0]}`] : []),
    ]
  })
}

/** Up to the bracket that closes the call. */
function bodyFrom(source: string, start: number): string {
  let depth = 1
  let end = start
  for (; end < source.length && depth > 0; end++) {
    if ('({['.includes(source[end]!)) depth++
    if (')}]'.includes(source[end]!)) depth--
  }
  return source.slice(start, end)
}

const root = path.resolve(import.meta.dirname, '../..')
const files = ['store', 'app', 'api', 'cli'].flatMap((folder) =>
  readdirSync(path.join(root, 'src', folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => path.join(root, 'src', folder, name)),
)

test('inside a transaction the database is the transaction, and nothing else is waited for', () => {
  const found = files.flatMap((file) =>
    faultsOf(readFileSync(file, 'utf8')).map((fault) => `${path.relative(root, file)}: ${fault}`),
  )
  expect(found).toEqual([])
  const count = files.reduce((sum, file) => sum + [...readFileSync(file, 'utf8').matchAll(opening)].length, 0)
  expect(count).toBeGreaterThan(5)
})

test.each([
  ['db.transaction(async (tx) => tx.select())', 'the transaction is called “tx”, not “db”'],
  ['db.transaction(async (tx: Db) => { await db.select() })', 'the transaction is called “tx”, not “db”'],
  ['db.transaction(async () => db.select())', 'the transaction is called “”, not “db”'],
  ['db.transaction((tx) => tx.select())', 'the transaction is called “tx”, not “db”'],
  ['db.transaction(async (db) => { await fetch(url) })', 'it waits for something else: fetch('],
  [
    'db.transaction(async (db) => { await new Promise((r) => setTimeout(r, 9)) })',
    'it waits for something else: new Promise',
  ],
])('%s is caught', (source, fault) => {
  expect(faultsOf(source)).toEqual([fault])
})

test('a transaction that keeps to itself is not', () => {
  expect(faultsOf('db.transaction(async (db) => { await db.select() }); await fetch(url)')).toEqual([])
})
