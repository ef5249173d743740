import { describe, expect, test } from 'vitest'
import { orderRecord } from '#contract/order.ts'
import { dayPlus, dueDateFault, orderDays } from '../../../src/web/orders/dates.ts'
import {
  type Draft,
  draftFaults,
  draftOf,
  emptyDraft,
  faultsOf,
  isFaultless,
  orderOf,
} from '../../../src/web/orders/draft.ts'

const days = orderDays('2026-03-02')
const draft = (given: Partial<Draft> = {}): Draft => ({
  kind: 'customer',
  name: 'Harbour shop',
  dueDate: '2026-04-01',
  oddsWanted: 0.9,
  lines: [{ id: 'a', designId: 'tray', glazeId: '', count: '6' }],
  ...given,
})

test('a draft with everything said has no fault, and stands for an order that the server takes', () => {
  expect(isFaultless(draftFaults(draft(), days))).toBe(true)
  const order = orderOf(draft(), 'order')
  expect(orderRecord.parse(order)).toEqual(order)
})

test('each field of an empty draft is asked for in its own place', () => {
  const faults = draftFaults(emptyDraft('a'), days)
  expect(Object.keys(faults).toSorted()).toEqual(['dueDate', 'lines', 'name'])
  expect(Object.keys(faults.lines['a']!)).toEqual(['designId', 'count'])
})

test.each(['', '0', '-3', '2.5', 'six', '10001'])('“%s” pieces are asked for again', (count) =>
  expect(draftFaults(draft({ lines: [{ id: 'a', designId: 'tray', glazeId: '', count }] })).lines['a']?.count).toMatch(
    /how many/i,
  ),
)

describe('a due date', () => {
  test.each(['', '2026-02-30', '26-03-09', 'soon'])('“%s” is no day', (day) =>
    expect(dueDateFault(day)).toMatch(/Choose the day/),
  )
  test('of a new order lies ahead, and not in another century', () => {
    expect(dueDateFault('2026-03-02', days)).toMatch(/passed/)
    expect(dueDateFault('2026-03-03', days)).toBeUndefined()
    expect(dueDateFault('2126-03-03', days)).toMatch(/year/)
  })
  test('of an order that was there may be past', () => expect(dueDateFault('2020-01-01')).toBeUndefined())
})

test('the day before the first of March is counted by the calendar', () => {
  expect(dayPlus('2026-03-01', -1)).toBe('2026-02-28')
  expect(dayPlus('2028-03-01', -1)).toBe('2028-02-29')
})

test('an order amended keeps its weight and its lines’ ids, so that what is under way for it stays its own', () => {
  const order = { ...orderOf(draft(), 'order'), weight: 3 }
  const amended = orderOf({ ...draftOf(order), dueDate: '2026-05-01' }, 'order', order)
  expect(amended).toEqual({ ...order, dueDate: '2026-05-01' })
})

describe('what the server refuses', () => {
  const two = draft({ lines: [...draft().lines, { id: 'b', designId: 'box', glazeId: 'blue', count: '2' }] })
  test('stands beside the field that it means', () => {
    const fields = [
      { path: 'lines[1].glazeId', message: 'There is no such glaze' },
      { path: 'dueDate', message: 'No' },
    ]
    expect(faultsOf({ detail: 'Two things are wrong.', fields }, two)).toEqual({
      dueDate: 'No',
      lines: { b: { glazeId: 'There is no such glaze' } },
    })
  })
  test('is said of the whole where it means no field of the form', () => {
    expect(faultsOf({ detail: 'It is full.' }, two)).toEqual({ lines: {}, whole: 'It is full.' })
    expect(faultsOf({ detail: 'No.', fields: [{ path: 'lines[9].count', message: 'Nine' }] }, two).whole).toBe('Nine')
  })
})
