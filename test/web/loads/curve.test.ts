import { describe, expect, test } from 'vitest'
import type { CurvePoint } from '#core/firing/types.ts'
import {
  frameFor,
  openingByReading,
  pathOf,
  placeOf,
  reckonedFiring,
  tempOnCurve,
  ticksUpTo,
} from '../../../src/web/loads/curve.ts'
import { handPlan } from '../../support/handPlan.ts'
import { someKilnFiring } from '../../support/kilnBuilders.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'

const point = (atMin: number, tempC: number): CurvePoint => ({ atMin, tempC, phase: 'heating', usedKwh: 0 })
const curve = [point(0, 20), point(600, 1_020), point(1_200, 420)]

test('between two points the curve is straight; beyond it there is nothing', () => {
  expect(tempOnCurve(curve, 300)).toBe(520)
  expect(tempOnCurve(curve, 900)).toBe(720)
  expect(tempOnCurve(curve, 0)).toBe(20)
  expect(tempOnCurve(curve, 1_201)).toBeUndefined()
  expect(tempOnCurve(curve, -1)).toBeUndefined()
})

test('the drawing has room for a reading above and beyond the curve', () => {
  const frame = frameFor(curve, [{ atMin: 1_500, tempC: 1_110 }])
  expect(frame).toMatchObject({ endMin: 1_500, topC: 1_200 })
  expect(placeOf(750, 600, frame)).toEqual({ x: frame.widthPx / 2, y: frame.heightPx / 2 })
})

test('the line begins to the left, near the foot', () => {
  const frame = { widthPx: 120, heightPx: 120, endMin: 1_200, topC: 1_200 }
  expect(pathOf(curve, frame)).toBe('M0.0 118.0L60.0 18.0L120.0 78.0')
})

test.each([
  [1_300, 50, [250, 500, 750, 1_000, 1_250]],
  [32, 1, [10, 20, 30]],
  [5, 1, [1, 2, 3, 4, 5]],
])('up to %d there are round numbers, and not too many', (most, least, wanted) =>
  expect(ticksUpTo(most, least)).toEqual(wanted),
)

describe('when it may be opened', () => {
  // W: T = Ta + (T0 - Ta) exp(-t / tau): from 420 to 95 °C in air of 20 °C with tau 4 h is 4 ln(400 / 75) = 6.6959 h.
  const kiln = someKilnFiring({ ambientC: 20, coolingTauH: 4, coolsVented: false, readingOffsetC: 0 })
  const shutOffMin = 1_000
  const reading = { minute: 1_200, tempC: 420 }
  test('is reckoned from the last reading after it was shut off', () =>
    expect(openingByReading({ readings: [reading] }, shutOffMin, kiln)).toEqual({
      readC: 420,
      readMin: 1_200,
      openMin: 1_200 + Math.ceil(6.6959 * 60),
    }))
  test('is not told by what was read while it fired', () =>
    expect(openingByReading({ readings: [{ minute: 900, tempC: 1_000 }] }, shutOffMin, kiln)).toBeNull())
  test('is now, where it is cool', () =>
    expect(openingByReading({ readings: [{ minute: 2_000, tempC: 60 }] }, shutOffMin, kiln)?.openMin).toBe(2_000))
})

test('a load is reckoned with its candling, as the plan does', () => {
  const studio = aStudioFile()
  const firing = { ...handPlan.firings[0]!, scheduleId: 'bisque-06' }
  const times = (candleHours: number) => {
    const outcome = reckonedFiring({ ...firing, candleHours }, firing.load, studio)
    return outcome?.kind === 'times' ? outcome.times.durationMin : Number.NaN
  }
  expect(times(8) - times(2)).toBe(6 * 60)
  expect(reckonedFiring({ ...firing, scheduleId: 'gone' }, firing.load, studio)).toBeUndefined()
})
