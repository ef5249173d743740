import { expect, test } from 'vitest'
import { placeOf } from '#contract/problems.ts'

test.each([
  [[], ''],
  [['designs', 2, 'parts', 0, 'thicknessMm'], 'designs[2].parts[0].thicknessMm'],
  [['studio', 'Größe'], 'studio.Größe'],
  [['studio', 'two words'], 'studio["two words"]'],
  [[0, 'id'], '[0].id'],
])('%j is written %s', (path, place) => {
  expect(placeOf(path)).toBe(place)
})
