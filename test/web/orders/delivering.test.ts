import { expect, test } from 'vitest'
import type { ShelfCount } from '#core/logbook/state.ts'
import { deliveryFault, readyLines } from '../../../src/web/orders/delivering.ts'
import { countedAgain } from '../../../src/web/orders/shelf.ts'
import { orderOf } from '../../../src/web/orders/draft.ts'
import { aPlan } from '../../support/planBuilders.ts'

const order = orderOf(
  {
    kind: 'customer',
    name: 'Shop',
    dueDate: '2026-04-01',
    oddsWanted: 0.9,
    lines: [
      { id: 'blue', designId: 'tray', glazeId: 'blue', count: '6' },
      { id: 'any', designId: 'tray', glazeId: '', count: '4' },
      { id: 'box', designId: 'box', glazeId: '', count: '2' },
    ],
  },
  'order',
)
const finished = (glazeId: string | null, count: number): ShelfCount => ({
  designId: 'tray',
  stage: 'finished',
  glazeId,
  count,
})
const promised = (orderLineId: string, wanted: number) => ({
  orderId: 'order',
  orderLineId,
  designId: 'tray',
  wanted,
  onTime: wanted,
  late: 0,
  readyMin: null,
  odds: 0.9,
  lastSafeCutMin: null,
})

test('what can go out is what a line still wants of what stands finished, in its glaze or in any', () => {
  const shelf = [finished('blue', 3), finished('white', 5), { ...finished(null, 9), stage: 'bisque' as const }]
  const plan = aPlan({ promises: [promised('blue', 2), promised('any', 4), promised('box', 2)] })
  expect(readyLines(order, plan, { shelf }).map(({ line, wanted, onShelf }) => [line.id, wanted, onShelf])).toEqual([
    ['blue', 2, [{ glazeId: 'blue', count: 3 }]],
    [
      'any',
      4,
      [
        { glazeId: 'blue', count: 3 },
        { glazeId: 'white', count: 5 },
      ],
    ],
  ])
})

test('nothing goes out for a line that has all it wanted', () => {
  const plan = aPlan({ promises: [promised('blue', 0), promised('any', 0)] })
  expect(readyLines(order, plan, { shelf: [finished('blue', 3)] })).toEqual([])
})

test.each([
  ['3', undefined],
  ['0', 'how many'],
  ['', 'how many'],
  ['1.5', 'how many'],
  ['5', 'stand on the shelf'],
  ['4', 'still wanted'],
])('“%s” of four on the shelf and three wanted', (text, fault) => {
  const [ready] = readyLines(order, aPlan({ promises: [promised('any', 3)] }), { shelf: [finished('white', 4)] })
  const found = deliveryFault(text, { ...ready!, wanted: 3 }, 4)
  if (fault === undefined) expect(found).toBeUndefined()
  else expect(found).toContain(fault)
})

const stock = [{ id: 'trays', designId: 'tray', stage: 'finished', glazeId: 'blue', count: 6 }] as const

test('a count by hand changes what the logbook begins with by as much as the shelf is off', () => {
  // Six stood there at first and four went out: two are told of. Counted three, so seven stood there at first.
  expect(countedAgain('3', finished('blue', 2), stock, 'new')).toEqual({ stock: { ...stock[0], count: 7 } })
})

test('ware that the logbook has never heard of begins a record of its own', () =>
  expect(countedAgain('4', finished('white', 0), stock, 'new')).toEqual({
    stock: { id: 'new', designId: 'tray', stage: 'finished', glazeId: 'white', count: 4 },
  }))

test('fewer than what came after the beginning cannot be counted away', () => {
  // None stood there at first, and eight were finished since.
  expect(countedAgain('5', finished('white', 8), stock, 'new')).toMatchObject({ fault: expect.stringContaining('8') })
  expect(countedAgain('some', finished('blue', 6), stock, 'new')).toHaveProperty('fault')
  expect(countedAgain('1', { ...finished('blue', 2), stage: 'second' }, stock, 'new')).toHaveProperty('fault')
})
