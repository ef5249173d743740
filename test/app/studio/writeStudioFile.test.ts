import { expect, test } from 'vitest'
import type { StudioFile } from '#contract/studioFields.ts'
import { seededRng } from '#core/rng.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { aFullStudioFile, anEmptyStudioFile } from '../../support/studioFiles.ts'

const full = aFullStudioFile()

test.each([
  ['a full studio', full],
  ['an empty one', anEmptyStudioFile()],
])('what was written, read and written again is the same byte for byte: %s', (_, file) => {
  const text = writeStudioFile(file)
  expect(writeStudioFile(readStudioFile(text))).toBe(text)
})

test('the order of records and of their fields does not matter', () => {
  const rng = seededRng(7)
  const shuffled = <Member>(members: readonly Member[]): Member[] => {
    const left = [...members]
    return members.map(() => left.splice(rng.int(left.length), 1)[0]!)
  }
  /** Every object with its fields in another order; lists within records keep theirs, which means something. */
  const scattered = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(scattered)
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(shuffled(Object.entries(value)).map(([key, member]) => [key, scattered(member)]))
  }
  const tables = Object.entries(full).map(([name, value]) => [name, Array.isArray(value) ? shuffled(value) : value])
  const other = scattered(Object.fromEntries(tables)) as StudioFile
  expect(JSON.stringify(other)).not.toBe(JSON.stringify(full))
  expect(writeStudioFile(other)).toBe(writeStudioFile(full))
})

test('records stand by id in the order of code units, where capitals and digits come first', () => {
  const spot = full.spots[0]!
  const spots = ['é', 'b', 'a', 'B', '10', '9'].map((id) => ({ ...spot, id }))
  const text = writeStudioFile({ ...anEmptyStudioFile(), spots })
  expect(readStudioFile(text).spots.map(({ id }) => id)).toEqual(['10', '9', 'B', 'a', 'b', 'é'])
})

test('a record takes one line, so that two files can be compared', () => {
  const renamed = {
    ...full,
    glazes: full.glazes.map((glaze, index) => (index === 0 ? { ...glaze, name: 'Cream' } : glaze)),
  }
  const before = writeStudioFile(full).split('\n')
  const after = writeStudioFile(renamed).split('\n')
  expect(after.filter((line, index) => line !== before[index])).toHaveLength(1)
})

test('the text of a small file, as it stands in the documentation', () => {
  const { glazes } = full
  const lines = writeStudioFile({ ...anEmptyStudioFile(), glazes: glazes.slice(0, 1) }).split('\n')
  expect(lines.slice(0, 4)).toEqual([
    '{',
    '"format": "wareboard-studio",',
    '"version": 1,',
    '"asOf": "2026-03-02T07:00:00.000Z",',
  ])
  expect(lines).toContain('{"id":"milk","name":"Milk","coneLow":"5","coneHigh":"7","foodSafeTested":true,"onHandL":14}')
})
