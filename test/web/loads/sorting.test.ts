import { expect, test } from 'vitest'
import { allGood, sortingFault } from '../../../src/web/loads/sorting.ts'

test('all good adds up', () => expect(sortingFault(allGood(6), 6)).toBeUndefined())

test('says how many are still to be told', () => {
  expect(sortingFault({ ...allGood(6), good: '4' }, 6)).toContain('2 are still to be told')
})

test('says how many are too many', () => {
  expect(sortingFault({ ...allGood(6), lost: '1' }, 6)).toContain('1 too many')
})

test.each(['', '-1', '1.5', 'two', '1e3'])('%j is no number of pieces', (good) => {
  expect(sortingFault({ ...allGood(6), good }, 6)).toContain(`“${good}”`)
})
