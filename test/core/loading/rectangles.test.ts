import { expect, test } from 'vitest'
import { packRectangles } from '#core/loading/rectangles/packRectangles.ts'
import type { RectangleProblem } from '#core/loading/rectangles/problem.ts'
import { run as soakRectangles } from '../../soak/rectangles.ts'

const problem = (plate: readonly [number, number], sides: readonly (readonly [number, number])[], mayTurn = true) => ({
  plateLengthMm: plate[0],
  plateWidthMm: plate[1],
  rectangles: sides.map(([lengthMm, widthMm]) => ({ lengthMm, widthMm })),
  mayTurn,
})
const pack = (asked: RectangleProblem, steps = 500) => packRectangles(asked, { seed: 1, steps })

test('plates cut at random are laid without overlap, and no bound asks for more than were cut', () => {
  expect(soakRectangles(200, 6)).toMatchObject({ failures: 0 })
})

test('squares wider than half a plate need a plate each, which area alone does not prove', () => {
  // 3 x 36 = 108 of 200: by area two plates would do.
  expect(
    pack(
      problem(
        [10, 10],
        [
          [6, 6],
          [6, 6],
          [6, 6],
        ],
      ),
    ),
  ).toMatchObject({ lowerBound: 3, plates: [{}, {}, {}] })
})

test('what only fits turned is turned, or called too large where turning is forbidden', () => {
  expect(pack(problem([40, 10], [[8, 30]])).plates).toEqual([[{ rectangle: 0, xMm: 0, yMm: 0, isTurned: true }]])
  expect(pack(problem([40, 10], [[8, 30]], false))).toEqual({ plates: [], tooLarge: [0], lowerBound: 0 })
  expect(
    pack(
      problem(
        [40, 10],
        [
          [41, 5],
          [4, 4],
        ],
      ),
    ),
  ).toMatchObject({ tooLarge: [0], lowerBound: 1 })
})

test('the search finds the pinwheel of four about one, which no straight cut can make', () => {
  // 4 x (3 x 2) + 1 = 25: a 5 by 5 plate is full.
  const pinwheel = problem(
    [5, 5],
    [
      [3, 2],
      [2, 3],
      [3, 2],
      [2, 3],
      [1, 1],
    ],
  )
  expect(pack(pinwheel).plates).toHaveLength(1)
})

test('the same seed and steps give the same packing', () => {
  const sides = Array.from({ length: 30 }, (_, k): [number, number] => [5 + ((k * 7) % 13), 4 + ((k * 5) % 11)])
  const asked = problem([30, 20], sides)
  expect(pack(asked, 300)).toEqual(pack(asked, 300))
})

test('a side that is no length is refused as a programming error', () => {
  expect(() => pack(problem([5, 5], [[0, 2]]))).toThrow(RangeError)
  expect(() => pack(problem([5, Number.NaN], [[1, 2]]))).toThrow(RangeError)
})
