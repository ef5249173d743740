import { expect, test } from 'vitest'
import { type Cone, compareCones, coneBasis, cones, coneTemperatureC, isCone } from '#core/firing/cones.ts'
import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '#core/units.ts'
import { fahrenheitCells } from '../../golden/firing/coneCells.ts'
import { w01to04, w05, w06 } from '../../golden/firing/workedExamples.ts'

test.each(fahrenheitCells)('cone %s agrees with the °F copy of the sheet at both rates', (cone, at108F, at270F) => {
  // Both columns are rounded to a whole degree, so they may differ by 0.5 °C + 0.5 °F.
  expect(Math.abs(coneTemperatureC(cone, 60, 'self-supporting')! - celsiusFromFahrenheit(at108F))).toBeLessThan(0.78)
  expect(Math.abs(coneTemperatureC(cone, 150, 'self-supporting')! - celsiusFromFahrenheit(at270F))).toBeLessThan(0.78)
  expect(coneBasis(cone, 60)).toBe('confirmed')
})

test('sixty-four cells are held against the copy', () => expect(fahrenheitCells.length * 2).toBe(64))

test.each(w01to04.cells)('cone $cone at $rateCPerH °C/h is $tempC °C', ({ cone, rateCPerH, tempC, tempF }) => {
  expect(coneTemperatureC(cone, rateCPerH, 'self-supporting')).toBe(tempC)
  expect(Math.round(fahrenheitFromCelsius(tempC))).toBe(tempF)
})

test('between rates the logarithm of the rate counts', () => {
  const tempC = coneTemperatureC(w06.cone, w06.rateCPerH, 'self-supporting')!
  expect(Math.abs(tempC - w06.tempC)).toBeLessThan(w06.toleranceC)
})

test('beyond the published rates the nearest one holds', () => {
  expect(coneTemperatureC('6', 5, 'self-supporting')).toBe(1185)
  expect(coneTemperatureC('6', 400, 'self-supporting')).toBe(1243)
  expect(coneTemperatureC('6', 20, 'large')).toBe(1220)
  expect(coneTemperatureC('022', 15, 'self-supporting')).toBe(586)
})

test('a cell that the sheet leaves empty is not invented', () => {
  expect(coneTemperatureC('022', 60, 'large')).toBeUndefined()
  expect(coneTemperatureC('14', 300, 'small')).toBeUndefined()
})

test('no cone goes down without heating', () => {
  expect(() => coneTemperatureC('6', 0, 'self-supporting')).toThrow(RangeError)
  expect(() => coneTemperatureC('6', NaN, 'self-supporting')).toThrow(RangeError)
})

test('cones sort by heat work, not by number', () => {
  expect(w05.rising.toReversed().toSorted(compareCones)).toEqual(w05.rising)
  expect(cones).toHaveLength(38)
})

test('every cone goes down later than the one before it, at every rate', () => {
  for (const rateCPerH of [15, 30, 60, 100, 150]) {
    const temps = cones.map((cone) => coneTemperatureC(cone, rateCPerH, 'self-supporting')!)
    expect(temps).toEqual(temps.toSorted((a, b) => a - b))
  }
})

test('the leading zero tells two cones apart', () => {
  expect(isCone('05') && isCone('5') && isCone('5 1/2')).toBe(true)
  expect(isCone('5.5') || isCone('0') || isCone('')).toBe(false)
  const gapC = coneTemperatureC('5', 60, 'self-supporting')! - coneTemperatureC('05' as Cone, 60, 'self-supporting')!
  expect(gapC).toBe(155)
})

test('cells known from memory alone say so', () => {
  expect(coneBasis('5 1/2', 60)).toBe('from memory')
  expect(coneBasis('06', 30)).toBe('from memory')
  expect(coneBasis('6', 30)).toBe('confirmed')
})
