import { expect, test } from 'vitest'
import { designRecord } from '#contract/design.ts'
import { builds, plainDesign } from '#core/studio/plainDesign.ts'

const materials = {
  clayId: 'clay',
  glazeIds: ['glaze'],
  bisqueScheduleId: 'bisque',
  glazeScheduleId: 'glaze-firing',
}
const mug = {
  id: 'mug',
  name: 'Mug',
  build: 'cylinder',
  lengthMm: 86,
  widthMm: 40,
  heightMm: 95,
  thicknessMm: 6,
  cutMin: 4,
  buildMin: 12,
  finishMin: 5,
} as const

test.each(builds)('a %s is a design that the contract takes', (build) => {
  expect(designRecord.safeParse(plainDesign({ ...mug, build }, materials)).error).toBeUndefined()
})

test('the wall of a cylinder goes once round its middle, and it is as wide as it is long', () => {
  const { parts, widthMm, outline } = plainDesign(mug, materials)
  // Geometry: 6 mm wet are 5.33 mm fired, so the middle of the wall lies on a circle of 80.67 mm; times π, 253.4 mm.
  expect(parts.find(({ id }) => id === 'wall')).toMatchObject({ lengthMm: 253, widthMm: 95 })
  expect({ widthMm, outline }).toEqual({ widthMm: 86, outline: 'round' })
})

test('the sides of a box meet at the corners of its base', () => {
  const { parts } = plainDesign({ ...mug, build: 'box', lengthMm: 200, widthMm: 120 }, materials)
  expect(parts.map(({ id, countPerPiece, lengthMm }) => [id, countPerPiece, lengthMm])).toEqual([
    ['base', 1, 200],
    ['long-side', 2, 200],
    ['short-side', 2, 109],
  ])
})

test('the minutes that were said are the minutes of the steps', () => {
  const minutes = plainDesign(mug, materials).steps.map(({ minPerPiece }) => minPerPiece)
  expect(minutes.slice(0, 2)).toEqual([4, 12])
  expect(minutes.slice(2).reduce((sum, min) => sum + min, 0)).toBeCloseTo(5, 10)
})

test('on a board of 600 by 300 mm lie two plates of 220 mm, or a single wide tray', () => {
  const slab = { ...mug, build: 'slab' } as const
  expect(plainDesign({ ...slab, lengthMm: 220, widthMm: 220 }, materials).piecesPerBoard).toBe(2)
  expect(plainDesign({ ...slab, lengthMm: 500, widthMm: 260 }, materials).piecesPerBoard).toBe(1)
})
