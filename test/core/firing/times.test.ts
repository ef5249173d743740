import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fastestCPerH } from '#core/firing/heat.ts'
import { emptyLoad, firingTimes, segmentsMin, usualOpening } from '#core/firing/times.ts'
import { usualSchedules } from '#core/firing/usualSchedules.ts'
import { celsiusFromFahrenheit } from '#core/units.ts'
import { modelledCooling } from '../../golden/firing/kilns.ts'
import { w11, w12, w32 } from '../../golden/firing/workedExamples.ts'
import { aGlazeFiring, aKiln, aLoad, timesOf } from './firings.ts'

test('a published schedule in °F takes its 8.04 h', () => {
  const segments = w11.ramps.map(({ rateFPerH, targetF, holdMin }) => ({
    rateCPerH: (rateFPerH * 5) / 9,
    targetC: celsiusFromFahrenheit(targetF),
    holdMin,
  }))
  expect(Math.abs(segmentsMin(segments, celsiusFromFahrenheit(w11.startF)) / 60 - w11.hours)).toBeLessThan(
    w11.toleranceH,
  )
  const times = timesOf(firingTimes(aGlazeFiring({ segments }), aKiln(), emptyLoad))
  expect(Math.abs(times.durationMin / 60 - w11.hours)).toBeLessThan(w11.toleranceH)
})

test('a bisque with candling takes its 12.42 h', () => {
  expect(Math.abs(segmentsMin(w12.segments, w12.startC) / 60 - w12.hours)).toBeLessThan(w12.toleranceH)
  const outcome = firingTimes(aGlazeFiring({ segments: w12.segments }), aKiln(), aLoad())
  expect(Math.abs(timesOf(outcome).durationMin / 60 - w12.hours)).toBeLessThan(w12.toleranceH)
  expect(outcome).toMatchObject({ slowedByPower: false })
})

describe('the kiln’s power', () => {
  test('slows a firing that asks more than it has', () => {
    const weak = firingTimes(aGlazeFiring(), aKiln({ powerKw: 8 }), aLoad())
    expect(weak).toMatchObject({ kind: 'times', slowedByPower: true })
    expect(timesOf(weak).durationMin).toBeGreaterThan(segmentsMin(w32.segments, 20))
  })

  test('at one steady power a capped ramp is that of the closed form', () => {
    // C dT/dt = P - UA (T - Ta): t = C / UA ln(P / (P - UA (T - Ta))); C = 45 * 1.1 + 92 * 0.55 * 1.05 = 102.63 kJ/K.
    const kiln = aKiln({ powerKw: 9 })
    const load = aLoad({ waterKg: 0 })
    const times = timesOf(
      firingTimes(aGlazeFiring({ segments: [{ rateCPerH: 9999, targetC: 1200, holdMin: 0 }] }), kiln, load),
    )
    const hours = (102.63 / 3600 / 0.004078) * Math.log(9 / (9 - 0.004078 * 1180))
    expect(times.durationMin / 60).toBeCloseTo(hours, 1)
  })

  test('that only holds at some temperature cannot fire above it, and says where it stuck', () => {
    // 4 kW = 4.078 W/K * (T - 20) at 1001 °C.
    const outcome = firingTimes(aGlazeFiring(), aKiln({ powerKw: 4 }), aLoad())
    expect(outcome).toMatchObject({ kind: 'impossible', reason: { code: 'power-too-low' } })
    if (outcome.kind === 'impossible') expect(Number(outcome.reason.params.stuckAtC)).toBeGreaterThan(950)
    expect(fastestCPerH(1002, aKiln({ powerKw: 4 }), aLoad())).toBeLessThan(0)
  })

  test('and its plate: no firing above the maximum', () => {
    expect(firingTimes(aGlazeFiring(), aKiln({ maxTempC: 1200 }), aLoad())).toEqual({
      kind: 'impossible',
      reason: { code: 'above-kiln-maximum', params: { topC: 1214, maxTempC: 1200 } },
    })
  })

  test('more load never ends sooner', () => {
    const masses = fc.double({ min: 0, max: 80, noNaN: true })
    fc.assert(
      fc.property(masses, masses, fc.double({ min: 7, max: 20, noNaN: true }), (a, b, powerKw) => {
        const endOf = (wareKg: number) =>
          timesOf(firingTimes(aGlazeFiring(), aKiln({ powerKw }), aLoad({ wareKg }))).durationMin
        expect(endOf(Math.max(a, b))).toBeGreaterThanOrEqual(endOf(Math.min(a, b)))
      }),
      { seed: 7, numRuns: 200 },
    )
  })
})

describe('cooling', () => {
  // A separate wall model; one time constant cannot follow its whole curve, so half an hour in twenty is allowed for.
  const firing = aGlazeFiring({ segments: [{ rateCPerH: 200, targetC: modelledCooling.closed.fromC, holdMin: 0 }] })
  const hoursToCool = (coolsVented: boolean, belowC: number, tauH: number) => {
    const kiln = aKiln({ coolsVented, coolingTauH: tauH, ventedTauH: tauH, ambientC: 22 })
    const times = timesOf(firingTimes(firing, kiln, emptyLoad, { openBelowC: belowC, unloadBelowC: belowC }))
    return (times.openMin - times.durationMin) / 60
  }

  test('closed, from cone 6 to the lid crack, takes as long as the wall model says', () => {
    expect(Math.abs(hoursToCool(false, 95, 7.2) - modelledCooling.closed.to95H)).toBeLessThan(0.5)
  })
  test('vented likewise', () => {
    expect(Math.abs(hoursToCool(true, 95, 5.0) - modelledCooling.vented.to95H)).toBeLessThan(0.5)
  })

  test('opening and unloading are two times: bare hands another 4-5 h after the lid crack', () => {
    const times = timesOf(firingTimes(aGlazeFiring(), aKiln({ ambientC: 22 }), aLoad()))
    expect((times.unloadMin - times.openMin) / 60).toBeGreaterThan(4)
    expect((times.unloadMin - times.openMin) / 60).toBeLessThan(5)
  })

  test('controlled segments are walked, the kiln is off at their end, and it draws power for them', () => {
    const coolingSegments = [{ rateCPerH: 69, targetC: 760, holdMin: 30 }]
    const plain = timesOf(firingTimes(aGlazeFiring(), aKiln(), aLoad()))
    const slow = timesOf(firingTimes(aGlazeFiring({ coolingSegments }), aKiln(), aLoad()))
    expect(slow.topMin).toBe(plain.durationMin)
    // (1214 - 760) / 69 h + 30 min = 424.8 min
    expect(slow.durationMin - slow.topMin).toBeGreaterThanOrEqual(424)
    expect(slow.durationMin - slow.topMin).toBeLessThanOrEqual(426)
    expect(slow.openMin).toBeGreaterThan(plain.openMin)
    expect(slow.curve.at(-1)!.usedKwh).toBeGreaterThan(plain.curve.at(-1)!.usedKwh)
  })

  test('no segment cools a kiln faster than it cools by itself', () => {
    const rush = aGlazeFiring({ coolingSegments: [{ rateCPerH: 2000, targetC: 200, holdMin: 0 }] })
    const plain = timesOf(firingTimes(aGlazeFiring(), aKiln(), aLoad()))
    const rushed = timesOf(firingTimes(rush, aKiln(), aLoad()))
    expect(Math.abs(rushed.openMin - plain.openMin)).toBeLessThanOrEqual(3)
    expect(rushed.curve.at(-1)!.usedKwh).toBeCloseTo(plain.curve.at(-1)!.usedKwh, 6)
  })

  test('on a day hotter than bare hands’ limit the kiln is still unloaded some time', () => {
    const times = timesOf(firingTimes(aGlazeFiring(), aKiln({ ambientC: 48 }), aLoad()))
    expect(Number.isFinite(times.unloadMin)).toBe(true)
    expect(times.curve.at(-1)!.tempC).toBe(53)
  })
})

describe('times', () => {
  test.each(usualSchedules)('of $name rise, are whole, and end at the two temperatures', (schedule) => {
    const times = timesOf(firingTimes(schedule, aKiln({ maxTempC: 1310 }), aLoad()))
    const ends = [times.topMin, times.durationMin, times.openMin, times.unloadMin]
    expect(ends).toEqual(ends.map(Math.trunc).toSorted((a, b) => a - b))
    expect(times.curve.map(({ atMin }) => atMin)).toEqual(
      times.curve.map(({ atMin }) => atMin).toSorted((a, b) => a - b),
    )
    expect(times.curve.at(-1)!.tempC).toBe(usualOpening.unloadBelowC)
    expect(Math.max(...times.curve.map(({ tempC }) => tempC))).toBeCloseTo(schedule.segments.at(-1)!.targetC, 9)
  })

  test('a manual kiln has its switch-ups, as far as they fall within the firing', () => {
    const times = timesOf(firingTimes(aGlazeFiring(), aKiln({ switchUpsMin: [60, 180, 9999] }), aLoad()))
    expect(times.switchUpsMin).toEqual([60, 180])
  })

  test('a kiln still warm skips what it has passed', () => {
    const warm = timesOf(firingTimes(aGlazeFiring(), aKiln(), aLoad(), usualOpening, 130))
    // From 130 °C: 980 / 200 h + 104 / 80 h + 15 min = 387 min.
    expect(warm.durationMin).toBe(387)
  })

  test('a schedule that is none is a bug of the caller', () => {
    const fire = (segments: Parameters<typeof aGlazeFiring>[0]) => () =>
      firingTimes(aGlazeFiring(segments), aKiln(), aLoad())
    expect(fire({ segments: [] })).toThrow(RangeError)
    expect(fire({ segments: [{ rateCPerH: 0, targetC: 900, holdMin: 0 }] })).toThrow(RangeError)
    expect(fire({ segments: [{ rateCPerH: 60, targetC: 900, holdMin: -1 }] })).toThrow(RangeError)
    expect(fire({ segments: [w32.segments[1], w32.segments[0]] })).toThrow(RangeError)
    expect(fire({ coolingSegments: [{ rateCPerH: 60, targetC: 1300, holdMin: 0 }] })).toThrow(RangeError)
  })
})
