import { spawnSync } from 'node:child_process'
import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'

type Journal = { readonly entries: readonly { readonly tag: string; readonly when: number }[] }

const folder = path.resolve(import.meta.dirname, '../../db/migrations')

// The migrator passes over, without a word, a migration that is older than the newest one applied.
test('migrations are listed in the order in which they were made, each with its file', () => {
  const { entries } = JSON.parse(readFileSync(path.join(folder, 'meta/_journal.json'), 'utf8')) as Journal
  const times = entries.map(({ when }) => when)
  expect(times).toEqual([...new Set(times)].toSorted((a, b) => a - b))
  expect(entries.map(({ tag }) => `${tag}.sql`).toSorted()).toEqual(
    readdirSync(folder)
      .filter((file) => file.endsWith('.sql'))
      .toSorted(),
  )
})

test('the tables say nothing that no migration does', () => {
  const root = path.resolve(import.meta.dirname, '../..')
  const PATH = `${path.join(root, 'node_modules/.bin')}${path.delimiter}${process.env.PATH}`
  const check = path.join(root, 'scripts/check-migrations.mjs')
  const { status, stderr } = spawnSync(process.execPath, [check], { env: { ...process.env, PATH }, encoding: 'utf8' })
  expect(status, stderr).toBe(0)
})
