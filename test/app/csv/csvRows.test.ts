import fc from 'fast-check'
import { expect, test } from 'vitest'
import { csvRows } from '#app/csv/csvRows.ts'

test.each([
  [
    'commas',
    'a,b\n1,2',
    [
      ['a', 'b'],
      ['1', '2'],
    ],
  ],
  [
    'semicolons with decimal commas',
    'a;b\n1,5;2,5',
    [
      ['a', 'b'],
      ['1,5', '2,5'],
    ],
  ],
  [
    'quoted cells, quotes and line ends in them',
    'a,"b, ""c""\nd"\n1,2',
    [
      ['a', 'b, "c"\nd'],
      ['1', '2'],
    ],
  ],
  [
    'empty lines and carriage returns',
    '\r\na,b\r\n\r\n1,2\r\n',
    [
      ['a', 'b'],
      ['1', '2'],
    ],
  ],
  ['a mark of byte order', '\uFEFFa,b', [['a', 'b']]],
])('%s', (_, text, cells) => {
  expect(csvRows(text).map((row) => row.cells)).toEqual(cells)
})

test('a row knows its line, also below a cell of several lines', () => {
  expect(csvRows('a,"b\nc"\n\n1,2').map((row) => row.line)).toEqual([1, 4])
})

test('whatever is written by the rules of RFC 4180 is read back', () => {
  const cell = fc.string({ unit: fc.constantFrom('a', '"', ',', '\n', '1', 'é') }).map((text) => text.trim())
  fc.assert(
    fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 }), (rows) => {
      const full = rows.map((cells) => ['x', ...cells])
      const text = full.map((cells) => cells.map((one) => `"${one.replaceAll('"', '""')}"`).join(',')).join('\r\n')
      expect(csvRows(text).map((row) => row.cells)).toEqual(full)
    }),
    { numRuns: 500, seed: 4 },
  )
})

test('lines may end as old Macs ended them', () => {
  expect(csvRows('a,b\r1,2\r').map(({ cells }) => cells)).toEqual([
    ['a', 'b'],
    ['1', '2'],
  ])
})

test('a quote that is never closed is told with its line', () => {
  expect(() => csvRows('a,b\n1,2\n3,"4\n5,6\n')).toThrow('Line 3: the quotation mark is never closed.')
})

test('a table that is too long to go through is refused at once', () => {
  expect(() => csvRows('1,2\n'.repeat(10_000_001))).toThrow('too long')
})
