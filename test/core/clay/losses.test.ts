import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { countToStart, goodCounts, goodRatio, oddsOfGood, usualLosses, wideFlatLosses } from '#core/clay/losses.ts'
import type { LossRates } from '#core/clay/types.ts'
import { seededRng } from '#core/rng.ts'
import { w39 } from '../../golden/clay/workedExamples.ts'

const losses = (but: Partial<LossRates> = {}): LossRates => ({
  dryingRatio: 0,
  bisqueRatio: 0,
  glazeRatio: 0,
  secondRatio: 0,
  correlation: 0,
  ...but,
})
const [drying, bisque, glaze] = w39.ratios
const worked = losses({ dryingRatio: drying, bisqueRatio: bisque, glazeRatio: glaze })

test('on average the worked example needs 28', () => {
  expect(w39.good / goodRatio(worked)).toBeCloseTo(w39.exact, 2)
  expect(27 * goodRatio(worked)).toBeLessThan(w39.good)
  expect(w39.start * goodRatio(worked)).toBeGreaterThanOrEqual(w39.good)
})

test('at 9 in 10 the average is not enough', () => {
  expect(oddsOfGood(w39.start, w39.good, worked)).toBeLessThan(0.9)
  expect(countToStart(w39.good, 0.9, worked)).toBeGreaterThan(w39.start)
})

describe('the count of good pieces', () => {
  test('is binomial when luck is not shared', () => {
    // 4 pieces, 10 % lost: C(4,3) 0.9³ 0.1 = 0.2916
    expect(goodCounts(4, losses({ dryingRatio: 0.1 }))[3]).toBeCloseTo(0.2916, 12)
    expect(goodCounts(4, losses({ dryingRatio: 0.1 }))[4]).toBeCloseTo(0.6561, 12)
  })

  test('is beta-binomial when it is', () => {
    // alpha = beta = 1 (half lost, correlation 1/3): every count of 0-5 is as likely. Skellam 1948; a uniform mixture.
    const counts = goodCounts(5, losses({ bisqueRatio: 0.5, correlation: 1 / 3 }))
    for (const odds of counts) expect(odds).toBeCloseTo(1 / 6, 12)
  })

  test('thins stage by stage', () => {
    // Independent losses of 10 and 20 % are one of 28 %.
    const staged = goodCounts(12, losses({ dryingRatio: 0.1, glazeRatio: 0.2 }))
    const once = goodCounts(12, losses({ dryingRatio: 0.28 }))
    staged.forEach((odds, count) => expect(odds).toBeCloseTo(once[count]!, 12))
  })

  test('a refire mends its share', () => {
    // 20 % spoiled, half of them mended: 10 % lost.
    const mended = goodCounts(10, losses({ glazeRatio: 0.2, refireGoodRatio: 0.5 }))
    const plain = goodCounts(10, losses({ glazeRatio: 0.1 }))
    mended.forEach((odds, count) => expect(odds).toBeCloseTo(plain[count]!, 12))
  })

  test('agrees with ten thousand loads fired by chance', () => {
    const rng = seededRng(39)
    const rates = losses({ dryingRatio: 0.08, glazeRatio: 0.1, correlation: 0.2 })
    // A Pólya urn gives beta-binomial draws without a beta generator: each loss makes the next likelier.
    const survivors = (count: number, lost: number) => {
      let left = 0
      for (let drawn = 0; drawn < count; drawn++) {
        const shared = rates.correlation / (1 - rates.correlation)
        if (rng.next() < (1 - lost + shared * left) / (1 + shared * drawn)) left++
      }
      return left
    }
    let enough = 0
    for (let load = 0; load < 10_000; load++) if (survivors(survivors(30, 0.08), 0.1) >= 24) enough++
    // Standard error at most 0.005.
    expect(Math.abs(enough / 10_000 - oddsOfGood(30, 24, rates))).toBeLessThan(0.02)
  })
})

describe('any losses', () => {
  const share = fc.double({ min: 0, max: 0.3, noNaN: true })
  const anyLosses = fc.record({
    dryingRatio: share,
    bisqueRatio: share,
    glazeRatio: share,
    secondRatio: share,
    correlation: fc.double({ min: 0, max: 0.6, noNaN: true }),
    refireGoodRatio: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  const counts = fc.integer({ min: 0, max: 60 })

  test('leave a distribution whose mean is the good ratio', () => {
    fc.assert(
      fc.property(anyLosses, counts, (rates, started) => {
        const odds = goodCounts(started, rates)
        const mean = odds.reduce((sum, probability, count) => sum + probability * count, 0)
        expect(odds.reduce((sum, probability) => sum + probability, 0)).toBeCloseTo(1, 9)
        expect(mean).toBeCloseTo(started * goodRatio(rates), 7)
      }),
      { seed: 4, numRuns: 200 },
    )
  })

  test('the count to start is the smallest that does it', () => {
    fc.assert(
      fc.property(
        anyLosses,
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 0.5, max: 0.95, noNaN: true }),
        (rates, good, odds) => {
          const count = countToStart(good, odds, rates)
          const cap = Math.ceil((3 * good) / goodRatio(rates)) + 1
          expect(count).toBeGreaterThanOrEqual(good)
          if (count < cap) expect(oddsOfGood(count, good, rates)).toBeGreaterThanOrEqual(odds)
          expect(count === good || oddsOfGood(count - 1, good, rates) < odds).toBe(true)
        },
      ),
      { seed: 5, numRuns: 60 },
    )
  })
})

test('shared luck asks for more pieces', () => {
  expect(countToStart(24, 0.9, { ...worked, correlation: 0.15 })).toBeGreaterThan(countToStart(24, 0.9, worked))
})

test('nothing wanted, nothing started; nothing lost, nothing spare', () => {
  expect(countToStart(0, 0.9, usualLosses)).toBe(0)
  expect(countToStart(7, 0.99, losses())).toBe(7)
})

test('hundreds of pieces do not underflow', () => {
  expect(goodCounts(600, usualLosses).reduce((sum, odds) => sum + odds, 0)).toBeCloseTo(1, 9)
})

test('wide flats lose 1.5-2 times as much, in every stage', () => {
  for (const stage of ['dryingRatio', 'bisqueRatio', 'glazeRatio', 'secondRatio'] as const) {
    expect(wideFlatLosses[stage] / usualLosses[stage]).toBeGreaterThanOrEqual(1.5)
    expect(wideFlatLosses[stage] / usualLosses[stage]).toBeLessThanOrEqual(2)
  }
})
