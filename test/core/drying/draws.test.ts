import { describe, expect, test } from 'vitest'
import { defaultClay } from '#core/drying/clay.ts'
import { jointDraws, middleDraw, normalQuantile, normalShare, priorBeliefs } from '#core/drying/draws.ts'

const beliefs = priorBeliefs(defaultClay)
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length
const spread = (values: readonly number[]): number =>
  Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)))
const correlation = (a: readonly number[], b: readonly number[]): number =>
  mean(a.map((value, i) => (value - mean(a)) * (b[i]! - mean(b)))) / spread(a) / spread(b)

test.each([
  // Tables of the normal distribution.
  [0.5, 0],
  [0.9, 1.281552],
  [0.95, 1.644854],
  [0.975, 1.959964],
  [0.001, -3.090232],
])('the quantile at %s is %s', (share, score) => {
  expect(normalQuantile(share)).toBeCloseTo(score, 5)
})

test('the share below a score is what the quantile is of', () => {
  for (const share of [0.001, 0.2, 0.5, 0.9, 0.975]) expect(normalShare(normalQuantile(share))).toBeCloseTo(share, 6)
})

describe('joint draws', () => {
  const draws = jointDraws(beliefs, 32, 3)

  test('already have the right middle and width when few', () => {
    expect(mean(draws.map(({ startMoistureDb }) => startMoistureDb))).toBeCloseTo(0.25, 3)
    expect(spread(draws.map(({ startMoistureDb }) => startMoistureDb))).toBeCloseTo(0.012, 3)
    const logs = draws.map(({ airFactor }) => Math.log(airFactor))
    expect(mean(logs)).toBeCloseTo(0, 2)
    expect(Math.abs(spread(logs) - 0.22)).toBeLessThan(0.02)
  })

  test('are the same for the same seed, and others for another', () => {
    expect(jointDraws(beliefs, 32, 3)).toEqual(draws)
    expect(jointDraws(beliefs, 32, 4)).not.toEqual(draws)
  })

  test('go together as far as beliefs say they do', () => {
    const tied = { ...beliefs, correlations: [{ a: 'airFactor', b: 'permeance.loose', rho: -0.95 }] }
    const pairs = jointDraws(tied, 400, 1)
    const air = pairs.map(({ airFactor }) => Math.log(airFactor))
    const leak = pairs.map(({ permeance }) => Math.log(permeance.loose))
    expect(correlation(air, leak)).toBeCloseTo(-0.95, 1)
    const free = jointDraws(beliefs, 400, 1)
    const freeLeak = free.map(({ permeance }) => Math.log(permeance.loose))
    expect(
      Math.abs(
        correlation(
          free.map(({ airFactor }) => Math.log(airFactor)),
          freeLeak,
        ),
      ),
    ).toBeLessThan(0.15)
  })

  test('spread evenly over a range where only the range is known', () => {
    // Of factors within four either way (by logarithm) a quarter lies under one half, a quarter over two.
    const factors = jointDraws(beliefs, 400, 2).map(({ permeance }) => permeance.cloth / beliefs.permeance.cloth.value)
    const shareUnder = (factor: number): number => mean(factors.map((one) => (one < factor ? 1 : 0)))
    expect([0.25, 0.5, 1, 2, 4].map(shareUnder)).toEqual([0, 0.25, 0.5, 0.75, 1].map((s) => expect.closeTo(s, 1)))
  })

  test('stay what clay can be, however wide the beliefs', () => {
    const clay = Object.fromEntries(
      Object.entries(defaultClay).map(([name, belief]) => [name, { ...belief, spread: belief.spread * 50 }]),
    ) as typeof defaultClay
    for (const draw of jointDraws(priorBeliefs(clay), 300, 9)) {
      expect(draw.endOfShrinkageDb).toBeLessThan(draw.startMoistureDb)
      expect(draw.oswinA).toBeGreaterThan(0)
      expect(draw.rimFactor).toBeGreaterThanOrEqual(1)
      expect(Object.values(draw.permeance).every((value) => value > 0)).toBe(true)
    }
  })

  test('know a spot better when it has been learned', () => {
    const learned = { ...beliefs, airFactorBySpot: { rack: { value: 1.3, spread: 0.05, kind: 'times' as const } } }
    const factors = jointDraws(learned, 64, 2).map(({ airFactorBySpot }) => airFactorBySpot['rack']!)
    expect(mean(factors)).toBeCloseTo(1.3, 1)
    expect(spread(factors)).toBeLessThan(0.08)
  })
})

test('the middle draw is what is believed', () => {
  expect(middleDraw(beliefs)).toMatchObject({ startMoistureDb: 0.25, airFactor: 1, thicknessFactor: 1, feelShiftDb: 0 })
})
