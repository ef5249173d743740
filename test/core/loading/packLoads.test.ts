import { describe, expect, test } from 'vitest'
import { checkLoad } from '#core/loading/checkLoad.ts'
import { circleFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import { packKilns, packLoads, type PackedLoads } from '#core/loading/packLoads.ts'
import type { KilnSpace, LoadItem, LoadKind } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { aKiln, aPiece, aShelf, mixedPieces, pilingPieces, someKilns } from './examples.ts'

const effort = { seed: 1, iterations: 15 }
const keysOf = ({ levels }: PackedLoads['loads'][number]): string[] =>
  levels.flatMap(({ placements }) => placements.map(({ key }) => key))
const breachesOf = (kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind, { loads }: PackedLoads) =>
  loads.flatMap((load) => {
    const inside = new Set(keysOf(load))
    return checkLoad(
      kiln,
      items.filter(({ key }) => inside.has(key)),
      kind,
      load,
    )
  })

test.each([
  ['round', 'glaze', mixedPieces(70, seededRng(1))],
  ['halves', 'bisque', pilingPieces(90, seededRng(2))],
  ['oval', 'glaze', mixedPieces(90, seededRng(3))],
] as const)('every piece stands in one load of the %s kiln or is left out with a reason', (name, kind, items) => {
  const packed = packLoads(someKilns[name], items, kind, effort)
  const seen = [...packed.loads.flatMap(keysOf), ...packed.leftOut.map(({ key }) => key)]
  expect(seen.toSorted()).toEqual(items.map(({ key }) => key).toSorted())
  expect(breachesOf(someKilns[name], items, kind, packed)).toEqual([])
  expect(packed.loads.length).toBeGreaterThanOrEqual(packed.atLeast)
})

test('the same seed gives the same loads, in whatever order the pieces come', () => {
  const items = mixedPieces(50, seededRng(4))
  const spots = (packed: PackedLoads) =>
    packed.loads.map(({ levels }) => levels.map(({ placements }) => placements.map(({ xMm, yMm }) => [xMm, yMm])))
  expect(spots(packLoads(someKilns.square, items.toReversed(), 'glaze', effort))).toEqual(
    spots(packLoads(someKilns.square, items, 'glaze', effort)),
  )
})

describe('what goes with what', () => {
  const kiln = someKilns.round

  test('sets stay in one load', () => {
    const items = mixedPieces(60, seededRng(6)).map((item, i) => ({ ...item, group: `set-${Math.floor(i / 6)}` }))
    const packed = packLoads(kiln, items, 'glaze', effort)
    expect(breachesOf(kiln, items, 'glaze', packed)).toEqual([])
    for (const load of packed.loads) {
      const groups = new Set(keysOf(load).map((key) => items.find((item) => item.key === key)!.group))
      expect(keysOf(load)).toHaveLength(6 * groups.size)
    }
  })

  test('ware of two heats takes two loads', () => {
    const items = mixedPieces(10, seededRng(7)).map((item, i) => ({
      ...item,
      firing: i < 5 ? { lowC: 1_040, highC: 1_060 } : { lowC: 1_220, highC: 1_240 },
    }))
    const packed = packLoads(kiln, items, 'glaze', effort)
    expect(packed.loads).toHaveLength(2)
    expect(breachesOf(kiln, items, 'glaze', packed)).toEqual([])
  })

  test('fillers go where room is left and light no kiln of their own', () => {
    const must = [aPiece('jar', circleFootprint(200), 200)]
    const fillers = mixedPieces(80, seededRng(8), false)
    const packed = packLoads(kiln, [...must, ...fillers], 'glaze', effort)
    expect(packed.loads).toHaveLength(1)
    expect(keysOf(packed.loads[0]!).length).toBeGreaterThan(15)
    expect(packed.leftOut.map(({ reason }) => reason.code)).toContain('no-room')
  })

  test('a piece that no kiln takes is left out with its set', () => {
    const items = [
      aPiece('tower', circleFootprint(100), 900, { group: 'set' }),
      aPiece('cup', circleFootprint(80), 90, { group: 'set' }),
      aPiece('bowl', circleFootprint(150), 60),
    ]
    const packed = packLoads(kiln, items, 'glaze', effort)
    expect(packed.loads.flatMap(keysOf)).toEqual(['bowl'])
    expect(packed.leftOut).toEqual([
      { key: 'tower', reason: expect.objectContaining({ code: 'piece-too-tall' }) },
      { key: 'cup', reason: { code: 'group-left-out', params: {} } },
    ])
  })
})

test('an oval kiln holds ware in both round ends and on the rectangles between', () => {
  const items = mixedPieces(60, seededRng(9), false).map((item, i) => (i === 0 ? { ...item, mustGo: true } : item))
  const [load] = packLoads(someKilns.oval, items, 'glaze', effort).loads
  expect(checkLoad(someKilns.oval, items, 'glaze', load!).filter(({ code }) => code !== 'piece-unaccounted')).toEqual(
    [],
  )
  const wareAt = (shelfId: string) =>
    load!.levels.filter(({ shelves }) => shelves[0]!.shelfId === shelfId).flatMap(({ placements }) => placements)
  expect(wareAt('rectangular-full').length).toBeGreaterThan(5)
  expect(wareAt('round-half').some(({ xMm }) => xMm > 0)).toBe(true)
  expect(wareAt('round-half').some(({ xMm }) => xMm < 0)).toBe(true)
})

test('twelve boxes stand at one height', () => {
  // A half shelf offers 560 mm by 280 mm less 3 mm at the joint: 4 boxes a row (4 x 120 + 3 x 6 = 498) and 2 rows
  // (2 x 120 + 6 = 246), so that the two halves of one level take sixteen.
  const boxes = Array.from({ length: 12 }, (_, i) => aPiece(`box-${i}`, rectangleFootprint(120, 120), 100))
  const packed = packLoads(someKilns.square, boxes, 'glaze', effort)
  expect(packed.loads).toHaveLength(1)
  expect(new Set(packed.loads[0]!.levels.map(({ zMm }) => zMm)).size).toBe(1)
})

describe('several kilns', () => {
  const small = aKiln({ kind: 'round', diameterMm: 420 }, 450, [
    aShelf({ kind: 'round', diameterMm: 360, share: 'full' }),
  ])
  const spaces = [small, someKilns.square] as const

  test.each([
    ['glaze', mixedPieces(110, seededRng(21))],
    ['bisque', pilingPieces(120, seededRng(22))],
  ] as const)(
    'every piece of a %s is once in a load that its kiln can take, or left out with a reason',
    (kind, items) => {
      const kilns = spaces.map((space) => ({ space, mostLoads: 2 }))
      const { loads, leftOut, atLeast } = packKilns(kilns, items, kind, effort)
      const seen = [...loads.flat().flatMap(keysOf), ...leftOut.map(({ key }) => key)]
      expect(seen.toSorted()).toEqual(items.map(({ key }) => key).toSorted())
      loads.forEach((own, k) => {
        expect(own.length).toBeLessThanOrEqual(2)
        expect(breachesOf(spaces[k]!, items, kind, { loads: own, leftOut, atLeast })).toEqual([])
      })
    },
  )

  test('what one load of the small kiln takes does not light the large one', () => {
    const kilns = spaces.toReversed().map((space) => ({ space, mostLoads: 3 }))
    const { loads } = packKilns(kilns, mixedPieces(6, seededRng(23)), 'glaze', effort)
    expect(loads.map(({ length }) => length)).toEqual([0, 1])
  })

  test('what is too tall for the small kiln goes in the large one', () => {
    const tall = [1, 2, 3].map((n) => aPiece(`vase-${n}`, circleFootprint(120), 480))
    const { loads, leftOut } = packKilns(
      spaces.map((space) => ({ space, mostLoads: 3 })),
      tall,
      'glaze',
      effort,
    )
    expect(loads.map(({ length }) => length)).toEqual([0, 1])
    expect(leftOut).toEqual([])
  })

  test('no more loads than a kiln has days for; what is over is left out', () => {
    const boxes = Array.from({ length: 40 }, (_, n) => aPiece(`box-${n}`, rectangleFootprint(200, 200), 150))
    const { loads, leftOut } = packKilns([{ space: someKilns.square, mostLoads: 1 }], boxes, 'glaze', effort)
    expect(loads[0]).toHaveLength(1)
    expect(new Set(leftOut.map(({ reason }) => reason.code))).toEqual(new Set(['no-room']))
    expect(leftOut.length + keysOf(loads[0]![0]!).length).toBe(40)
  })

  test('no fewer loads than proved, and a second kiln never asks for more', () => {
    for (let seed = 31; seed <= 36; seed++) {
      const items = mixedPieces(90, seededRng(seed))
      const one = packLoads(small, items, 'glaze', effort)
      const both = packKilns(
        spaces.map((space) => ({ space, mostLoads: Infinity })),
        items,
        'glaze',
        effort,
      )
      expect(both.loads.flat().length).toBeGreaterThanOrEqual(both.atLeast)
      expect(both.loads.flat().length).toBeLessThanOrEqual(one.loads.length)
      expect(both.atLeast).toBeLessThanOrEqual(one.atLeast)
    }
  })
})
