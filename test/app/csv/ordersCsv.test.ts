import { describe, expect, test } from 'vitest'
import { Refusal } from '#app/refusal.ts'
import { ordersFromCsv, ordersToCsv } from '#app/csv/ordersCsv.ts'
import type { OrderRecord } from '#contract/order.ts'
import { aFullStudioFile } from '../../support/studioFiles.ts'

const { designs, glazes, orders } = aFullStudioFile()
const studio = { designs, glazes }
const table = (...lines: readonly string[]): string => lines.join('\r\n')
const withoutIds = (given: readonly OrderRecord[]) =>
  given.map(({ id: _order, lines, ...order }) => ({ ...order, lines: lines.map(({ id: _line, ...line }) => line) }))

test('rows of one order and date are its lines; what is left out is usual', () => {
  const text = table(
    'Order;Due;Design;Glaze;Count',
    'Lena;2026-04-02;Slab mug;Moss;6',
    'Corner café;02.04.2026;tea tray;;4',
    'Lena;2026-04-02;Side plate;;6',
  )
  expect(withoutIds(ordersFromCsv(text, studio))).toEqual([
    {
      kind: 'customer',
      name: 'Lena',
      dueDate: '2026-04-02',
      weight: 1,
      oddsWanted: 0.9,
      lines: [
        { designId: 'mug', glazeId: 'moss', count: 6 },
        { designId: 'plate', glazeId: null, count: 6 },
      ],
    },
    {
      kind: 'customer',
      name: 'Corner café',
      dueDate: '2026-04-02',
      weight: 1,
      oddsWanted: 0.9,
      lines: [{ designId: 'tray', glazeId: null, count: 4 }],
    },
  ])
})

test('what was written is read again', () => {
  expect(withoutIds(ordersFromCsv(ordersToCsv(orders, studio), studio))).toEqual(withoutIds(orders))
})

test('a table read twice makes no order twice, and two orders never share an id', () => {
  const text = ordersToCsv(orders, studio)
  const ids = ordersFromCsv(text, studio).map(({ id }) => id)
  expect(ordersFromCsv(text, studio).map(({ id }) => id)).toEqual(ids)
  expect(new Set(ids).size).toBe(orders.length)
})

test('a name that looks like a formula stays a text in a spreadsheet', () => {
  const order = { ...orders[1]!, name: '=HYPERLINK("http://x")' }
  const text = ordersToCsv([order], studio)
  expect(text).toContain(`"'=HYPERLINK(""http://x"")"`)
  expect(ordersFromCsv(text, studio)[0]!.name).toBe(order.name)
})

describe('refuses, naming the line', () => {
  const head = 'order,due,design,glaze,count,kind'
  test.each([
    [
      'a design that there is not',
      table(head, 'Lena,2026-04-02,bowl,,2'),
      /^Line 2: there is no design “bowl”\. There are: “Tea tray”/,
    ],
    ['a glaze that there is not', table(head, 'Lena,2026-04-02,mug,red,2'), /^Line 2: there is no glaze “red”/],
    ['a date that is none', table(head, 'Lena,4/2/2026,mug,,2'), /^Line 2: “4\/2\/2026” is not a date/],
    ['a day that is none', table(head, 'Lena,2026-02-30,mug,,2'), /^Line 2: The day the order is due must be a date/],
    [
      'a count that is none',
      table(head, 'Lena,2026-04-02,mug,,2', 'Lena,2026-04-02,tray,,some'),
      /^Line 3: The number of pieces must be a whole number/,
    ],
    [
      'a kind that is none',
      table(head, 'Lena,2026-04-02,mug,,2,friend'),
      /^Line 2: The kind of order must be one of: customer, market, stock, not “friend”\.$/,
    ],
    ['a heading that is missing', table('order,design,count', 'Lena,mug,2'), /there is no due\.$/],
    ['nothing', '', /there is no order, due, design, count\.$/],
  ])('%s', (_, text, message) => {
    expect(() => ordersFromCsv(text, studio)).toThrow(Refusal)
    expect(() => ordersFromCsv(text, studio)).toThrow(message)
  })
})
