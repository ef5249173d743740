import { expect, test } from 'vitest'
import { cooledTempC, coolingMin, tauFromReadings } from '#core/firing/cooling.ts'
import { w35, w36 } from '../../golden/firing/workedExamples.ts'

test('two readings of a kiln give its time constant', () => {
  const result = tauFromReadings(
    { atMin: 0, tempC: w35.fromC },
    { atMin: w35.hours * 60, tempC: w35.toC },
    w35.ambientC,
  )
  expect('tauH' in result && Math.abs(result.tauH - w35.tauH)).toBeLessThan(w35.toleranceH)
})

test('their order does not matter', () => {
  const a = { atMin: 0, tempC: 700 }
  const b = { atMin: 300, tempC: 340 }
  expect(tauFromReadings(b, a, 20)).toEqual(tauFromReadings(a, b, 20))
})

test('readings that cannot give one say why', () => {
  const at = (atMin: number, tempC: number) => ({ atMin, tempC })
  expect(tauFromReadings(at(0, 500), at(0, 400), 20)).toEqual({ reason: 'same-moment' })
  expect(tauFromReadings(at(0, 500), at(60, 510), 20)).toEqual({ reason: 'not-cooling' })
  expect(tauFromReadings(at(0, 500), at(60, 20), 20)).toEqual({ reason: 'not-above-ambient' })
})

test('from cone 6 to the lid crack at tau 7 h', () => {
  const { fromC, toC, ambientC, tauH } = w36
  expect(Math.abs(coolingMin(fromC, toC, { ambientC, tauH }) / 60 - w36.hours)).toBeLessThan(w36.toleranceH)
})

test('temperature and time are each other’s inverse', () => {
  const cooling = { ambientC: 22, tauH: 6.3 }
  for (const toC of [900, 573, 226, 95, 50]) {
    expect(cooledTempC(1222, coolingMin(1222, toC, cooling), cooling)).toBeCloseTo(toC, 9)
  }
})

test('what is cool takes no time, what cannot cool takes for ever', () => {
  expect(coolingMin(60, 95, { ambientC: 22, tauH: 7 })).toBe(0)
  expect(coolingMin(60, 22, { ambientC: 22, tauH: 7 })).toBe(Infinity)
})
