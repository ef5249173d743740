import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'

/** What each folder may import of ours besides itself; everything else is planted and has to be caught. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  core: [],
  contract: ['core'],
  words: ['core', 'contract'],
  store: ['core', 'db/schema'],
  app: ['core', 'contract', 'store'],
  api: ['core', 'contract', 'store', 'app', 'words'],
  cli: ['core', 'contract', 'store', 'app', 'words'],
  web: ['core', 'contract', 'words'],
}
const ours = [...Object.keys(mayImport), 'db/schema']

/** Packages that a folder must not reach for, and some that it may. */
const packages: readonly { readonly folder: string; readonly from: string; readonly allowed: boolean }[] = [
  { folder: 'core', from: 'robust-predicates', allowed: true },
  { folder: 'core', from: 'zod', allowed: false },
  { folder: 'core', from: 'node:fs', allowed: false },
  { folder: 'core', from: 'fs', allowed: false },
  { folder: 'contract', from: 'zod', allowed: true },
  { folder: 'contract', from: 'drizzle-orm', allowed: false },
  { folder: 'contract', from: 'node:crypto', allowed: false },
  { folder: 'words', from: 'react', allowed: false },
  { folder: 'words', from: 'node:os', allowed: false },
  { folder: 'store', from: 'drizzle-orm/pg-core', allowed: true },
  { folder: 'store', from: 'hono', allowed: false },
  { folder: 'app', from: 'luxon', allowed: true },
  { folder: 'app', from: 'drizzle-orm', allowed: false },
  { folder: 'app', from: 'hono/http-exception', allowed: false },
  { folder: 'api', from: 'hono/secure-headers', allowed: true },
  { folder: 'api', from: 'drizzle-orm', allowed: false },
  { folder: 'cli', from: 'drizzle-orm', allowed: false },
  { folder: 'web', from: 'react', allowed: true },
  { folder: 'web', from: 'hono/client', allowed: true },
  { folder: 'web', from: 'node:fs', allowed: false },
  { folder: 'web', from: '@hono/node-server', allowed: false },
]

type Plant = { readonly file: string; readonly source: string; readonly caught: boolean }

const ofOurs = Object.entries(mayImport).flatMap(([folder, allowed]) =>
  ours
    .filter((target) => target !== folder && !(folder === 'web' && target === 'api'))
    .flatMap((target) => {
      const caught = !allowed.includes(target)
      const name = `src/${folder}/deep/to-${target.replace('/', '-')}`
      const relative = target === 'db/schema' ? '../../../db/schema' : `../../${target}`
      return [
        { file: `${name}.ts`, source: `import { a } from '#${target}/a.ts'\nexport const b = a\n`, caught },
        { file: `${name}-type.ts`, source: `import type { A } from '#${target}/a.ts'\nexport type B = A\n`, caught },
        { file: `${name}-again.ts`, source: `export * from '#${target}/a.ts'\n`, caught },
        { file: `${name}-lazy.ts`, source: `export const lazy = () => import('#${target}/a.ts')\n`, caught },
        // Written as a path it is caught even where it would be allowed: relative stays inside a folder.
        { file: `${name}-path.ts`, source: `import { a } from '${relative}/a.ts'\nexport const b = a\n`, caught: true },
      ]
    }),
)

const ofPackages = packages.map(({ folder, from, allowed }, i) => ({
  file: `src/${folder}/package-${i}.ts`,
  source: `import * as all from '${from}'\nexport const b = all\n`,
  caught: !allowed,
}))

const others: readonly Plant[] = [
  { file: 'src/web/api-type.ts', source: `import type { A } from '#api/a.ts'\nexport type B = A\n`, caught: false },
  { file: 'src/web/api-value.ts', source: `import { a } from '#api/a.ts'\nexport const b = a\n`, caught: true },
  // Left as it is by the compiler, it would load the module for a type.
  { file: 'src/web/api-inline.ts', source: `import { type A } from '#api/a.ts'\nexport type B = A\n`, caught: true },
  { file: 'src/core/inside.ts', source: `import { a } from '#core/deep/a.ts'\nexport const b = a\n`, caught: false },
  { file: 'src/core/deep/near.ts', source: `import { a } from './a.ts'\nexport const b = a\n`, caught: false },
  { file: 'src/core/in-type.ts', source: `export const a: import('#app/a.ts').A | 1 = 1\n`, caught: true },
  { file: 'src/core/to-worker.ts', source: `import { a } from '../worker.ts'\nexport const b = a\n`, caught: true },
  { file: 'src/app/round.ts', source: `import { b } from './trip.ts'\nexport const a = () => b\n`, caught: true },
  { file: 'src/app/trip.ts', source: `import { a } from './round.ts'\nexport const b = () => a\n`, caught: true },
  {
    file: 'src/app/typeRound.ts',
    source: `import type { B } from '#app/typeTrip.ts'\nexport type A = B | 1\n`,
    caught: true,
  },
  {
    file: 'src/app/typeTrip.ts',
    source: `import type { A } from '#app/typeRound.ts'\nexport type B = A | 2\n`,
    caught: true,
  },
  { file: 'src/worker.ts', source: `import { a } from '#store/a.ts'\nexport const b = a\n`, caught: true },
  { file: 'db/schema/upwards.ts', source: `import { a } from '#store/a.ts'\nexport const b = a\n`, caught: true },
  // Not about imports: rules of the same file that matter as much.
  {
    file: 'src/app/floating.ts',
    source: `const work = async () => 1\nexport function go() {\n  work()\n}\n`,
    caught: true,
  },
  { file: 'src/app/any.ts', source: `export const a: any = 1\n`, caught: true },
  { file: 'src/core/console.ts', source: `export const say = () => console.log(1)\n`, caught: true },
  { file: 'src/app/default.ts', source: `export default 1\n`, caught: true },
]

const plants: readonly Plant[] = [...ofOurs, ...ofPackages, ...others]
const root = path.resolve(import.meta.dirname, '../..')
let house: string
let caughtFiles: ReadonlySet<string>

beforeAll(() => {
  house = mkdtempSync(path.join(tmpdir(), 'planted-'))
  for (const file of ['.oxlintrc.json', 'package.json', 'tsconfig.json'])
    copyFileSync(path.join(root, file), path.join(house, file))
  symlinkSync(path.join(root, 'node_modules'), path.join(house, 'node_modules'))
  for (const { file, source } of plants) {
    mkdirSync(path.dirname(path.join(house, file)), { recursive: true })
    writeFileSync(path.join(house, file), source)
  }
  const oxlint = path.join(root, 'node_modules/.bin/oxlint')
  const { stdout } = spawnSync(oxlint, ['--type-aware', '--format=json', 'src', 'db'], { cwd: house, encoding: 'utf8' })
  const report = JSON.parse(stdout) as { diagnostics: { filename: string }[]; number_of_files: number }
  expect(report.number_of_files).toBe(plants.length)
  caughtFiles = new Set(report.diagnostics.map(({ filename }) => filename))
})

afterAll(() => rmSync(house, { recursive: true, force: true }))

test.each(plants)('$file is caught: $caught', ({ file, caught }) => {
  expect(caughtFiles.has(file)).toBe(caught)
})
