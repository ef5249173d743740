import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { jsonFault } from '#app/studio/jsonFault.ts'

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text)
    return true
  } catch {
    return false
  }
}

describe('the place of the fault', () => {
  test.each([
    ['{"a": 1,}', 1, 9],
    ['{"a": 1\n "b": 2}', 2, 2],
    ['{"a"\n\n: tru}', 3, 3],
    ['[1, 2] 3', 1, 8],
    ['{a: 1}', 1, 2],
    ['["tab\there"]', 1, 6],
    ['["\\q"]', 1, 3],
    ['[01]', 1, 2],
    ['[1}', 1, 3],
  ])('%j is at line %i, column %i', (text, line, column) => {
    expect(jsonFault(text)).toEqual({ line, column, endsTooEarly: false })
  })
})

test('there is a fault exactly where the engine finds one', () => {
  const pieces = fc.constantFrom(
    '{',
    '}',
    '[',
    ']',
    ',',
    ':',
    '"a"',
    '"',
    '\\',
    'u12',
    '1',
    '-',
    '.5',
    'e',
    'true',
    'nul',
    'l',
    ' ',
    '\n',
  )
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 12 }), (parts) => {
      const text = parts.join('')
      expect(jsonFault(text) === undefined, JSON.stringify(text)).toBe(isJson(text))
    }),
    { numRuns: 5_000, seed: 1 },
  )
})

test('a file that is cut off anywhere is said to end too early, at its end', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.nat(), (value, cut) => {
      const text = JSON.stringify({ value }, null, 1)
      const start = text.slice(0, cut % text.length)
      const lines = start.split('\n')
      expect(jsonFault(start)).toEqual({ line: lines.length, column: lines.at(-1)!.length + 1, endsTooEarly: true })
    }),
    { numRuns: 500, seed: 2 },
  )
})
