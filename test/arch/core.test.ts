import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'

const root = path.resolve(import.meta.dirname, '../..')

// The compiler keeps Node and the browser out of the core; these three are plain JavaScript and compile anywhere.
const takesItsOwnTimeOrChance = /Math\.random|Date\.now|new Date\(\s*\)/

test('the core is handed its time and its chance', () => {
  const files = readdirSync(path.join(root, 'src/core'), { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  )
  const taking = files.filter((file) =>
    takesItsOwnTimeOrChance.test(readFileSync(path.join(root, 'src/core', file), 'utf8')),
  )
  expect(files.length).toBeGreaterThan(20)
  expect(taking).toEqual([])
})

test.each(['Math.random()', 'Date.now()', 'new Date()', 'new Date( )'])('%s would be found', (call) => {
  expect(takesItsOwnTimeOrChance.test(`export const taken = ${call}`)).toBe(true)
})

const impure = [
  'console',
  'process',
  'setTimeout',
  'fetch',
  'performance',
  'document',
  'structuredClone',
  'Buffer',
  'crypto',
]
let folder: string
let complaints: string

beforeAll(() => {
  // Inside the project, so that what the compiler finds in node_modules is what it finds for the core.
  mkdirSync(path.join(root, '.cache'), { recursive: true })
  folder = mkdtempSync(path.join(root, '.cache/planted-'))
  writeFileSync(
    path.join(folder, 'tsconfig.json'),
    JSON.stringify({ extends: '../../src/core/tsconfig.json', include: ['.'] }),
  )
  for (const name of impure) writeFileSync(path.join(folder, `${name}.ts`), `export const planted = ${name}\n`)
  writeFileSync(path.join(folder, 'pure.ts'), 'export const planted = Math.max(1, [1, 2].toSorted().length)\n')
  const tsc = path.join(root, 'node_modules/.bin/tsc')
  complaints = spawnSync(tsc, ['--noEmit', '-p', folder], { cwd: root, encoding: 'utf8' }).stdout
})

afterAll(() => rmSync(folder, { recursive: true, force: true }))

test.each(impure)('%s does not exist in the core', (name) => {
  expect(complaints).toMatch(new RegExp(`${name}\\.ts\\(1,24\\): error TS\\d+: Cannot find name '${name}'`))
})

test('plain JavaScript does', () => {
  expect(complaints).not.toContain('pure.ts')
})
