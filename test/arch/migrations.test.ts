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
