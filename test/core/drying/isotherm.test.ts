import { describe, expect, test } from 'vitest'
import { endOfShrinkageDb, firmnessThresholdDb, linearShrinkage } from '#core/drying/clay.ts'
import {
  BRICK_GAB,
  boneDryDb,
  gabMoistureDb,
  oswinMoistureDb,
  waterActivity,
  waterActivitySlope,
} from '#core/drying/isotherm.ts'
import { shrunkWhen } from '#core/drying/shrunk.ts'
import { usualDraw } from '../../support/dryingBuilders.ts'
import { dryingIsotherms } from '../../golden/drying/dryingIsotherms.ts'

describe('unfired brick as measured', () => {
  const rmse = (points: readonly (readonly [number, number])[], model: (rh: number) => number): number =>
    Math.sqrt(points.reduce((sum, [rh, percent]) => sum + (model(rh / 100) - percent / 100) ** 2, 0) / points.length)

  test.each(dryingIsotherms)(
    '$sample: both isotherms meet it about as closely as their fits say',
    ({ points, oswin, gab }) => {
      const byOswin = rmse(points, (rh) => oswinMoistureDb(rh, oswin.A, oswin.B))
      const byGab = rmse(points, (rh) => gabMoistureDb(rh, gab))
      expect(byOswin).toBeLessThan(Number(oswin.rmse) * 1.4)
      expect(byGab).toBeLessThan(Number(gab.rmse) * 1.4)
      // This is why what is shown comes from the latter.
      expect(byGab).toBeLessThan(byOswin)
    },
  )
})

test('what is shown as equilibrium is the measured brick’s, within 0.0025 up to 90 %', () => {
  for (const [rh, percent] of dryingIsotherms[0].points) {
    if (rh <= 90) expect(Math.abs(gabMoistureDb(rh / 100, BRICK_GAB) - percent / 100)).toBeLessThan(0.0025)
  }
})

test('activity is the isotherm turned round, and its slope the slope', () => {
  for (const rh of [0.05, 0.3, 0.5, 0.8, 0.97]) {
    expect(waterActivity(oswinMoistureDb(rh, 0.017, 0.38), 0.017, 0.38)).toBeCloseTo(rh, 10)
    const db = oswinMoistureDb(rh, 0.017, 0.38)
    const rise = waterActivity(db + 1e-7, 0.017, 0.38) - waterActivity(db - 1e-7, 0.017, 0.38)
    expect(waterActivitySlope(db, 0.017, 0.38)).toBeCloseTo(rise / 2e-7, 2)
  }
  expect(waterActivitySlope(0, 0.017, 0.38)).toBeCloseTo(0, 8)
})

test('a damp night dries nothing: bone dry is judged at 50 % at the most', () => {
  // X_eq(50 %) = A = 0.017, and half a point above: 0.022. At 95 % it would have been 0.057.
  expect(boneDryDb(0.017, 0.38, 0.95)).toBeCloseTo(0.022, 6)
  expect(boneDryDb(0.017, 0.38, 0.3)).toBeLessThan(0.022)
})

test.each([
  [0.04, 0.178],
  [0.05, 0.161],
  [0.06, 0.144],
  [0.07, 0.127],
  [0.08, 0.111],
])('a body that shrinks %s stops at %s', (shrinkage, endDb) => {
  // Volume balance with 2650 kg/m3 and 0.25 as bagged.
  expect(endOfShrinkageDb(shrinkage)).toBeCloseTo(endDb, 2)
  expect(linearShrinkage(0, 0.25, endOfShrinkageDb(shrinkage))).toBeCloseTo(shrinkage, 10)
})

test.each([
  [0.14, [0.21, 0.175, 0.15]],
  [0.178, [0.224, 0.201, 0.184]],
  [0.111, [0.2, 0.155, 0.124]],
])('firmness words of a body whose shrinkage ends at %s', (endDb, [soft, leatherHard, firm]) => {
  const draw = { ...usualDraw, endOfShrinkageDb: endDb }
  expect(firmnessThresholdDb('soft', draw)).toBeCloseTo(soft!, 2)
  expect(firmnessThresholdDb('leather hard', draw)).toBeCloseTo(leatherHard!, 2)
  expect(firmnessThresholdDb('firm', draw)).toBeCloseTo(firm!, 2)
})

test('trued soft, a slab of a 6 % body has shrunk about 2 %; leather hard, about 4 %', () => {
  expect(shrunkWhen('soft', usualDraw)).toBeCloseTo(0.02, 2)
  expect(shrunkWhen('leather hard', usualDraw)).toBeCloseTo(0.04, 2)
})
