import { expect, test } from 'vitest'
import { oddsOfGood, usualLosses } from '#core/clay/losses.ts'
import { lineOdds } from '#core/planning/construct/lineOdds.ts'

/** Each piece lost on its own with 1 in 2: binomial counts, which can be checked by hand. */
const coin = { dryingRatio: 0.5, bisqueRatio: 0, glazeRatio: 0, secondRatio: 0, correlation: 0 }
const source = { started: 2, before: 0, losses: coin, holdsOdds: 1 }

test('one run alone is what its losses leave', () => {
  const losses = usualLosses
  expect(lineOdds(9, [{ started: 12, before: 0, losses, holdsOdds: 1 }])).toBeCloseTo(oddsOfGood(12, 9, losses), 12)
})

test('what one run has over helps another out', () => {
  // Of two and two coins at least two heads: 11 of 16; each pair bringing exactly its own one or more: 9 of 16.
  expect(lineOdds(2, [source, source])).toBeCloseTo(11 / 16, 12)
})

test('lines before this one are served first', () => {
  // Two heads of two: 1 of 4. One head of two: 3 of 4.
  expect(lineOdds(1, [{ ...source, before: 1 }])).toBeCloseTo(1 / 4, 12)
  expect(lineOdds(1, [source])).toBeCloseTo(3 / 4, 12)
})

test('a run that may fail as a whole brings nothing when it does', () => {
  expect(lineOdds(1, [{ ...source, holdsOdds: 0.5 }])).toBeCloseTo(3 / 8, 12)
  expect(lineOdds(0, [{ ...source, holdsOdds: 0 }])).toBe(1)
  expect(lineOdds(1, [])).toBe(0)
})
