/** The checker of loads shares nothing with the packer but the types: a fault of one must show in the other. */
import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'

const folder = path.resolve(import.meta.dirname, '../../src/core/loading')
const files = ['checkLoad.ts', ...readdirSync(path.join(folder, 'check')).map((file) => `check/${file}`)]

test.each(files)('%s imports the checker, the types and exact predicates only', (file) => {
  const text = readFileSync(path.join(folder, file), 'utf8')
  const imports = [...text.matchAll(/from '([^']+)'/g)].map(([, from]) => from!)
  const allowed = /^(\.\/check\/\w+\.ts|\.\.?\/types\.ts|robust-predicates)$/
  const within = file.startsWith('check/') ? /^\.\/\w+\.ts$/ : allowed
  expect(imports.filter((from) => !allowed.test(from) && !within.test(from))).toEqual([])
})
