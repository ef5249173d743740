import psychrolib from 'psychrolib'
import { describe, expect, test } from 'vitest'
import {
  dewPointC,
  humidityRatio,
  humidityRatioFromWetBulb,
  humidityRatioOf,
  saturationOverWaterPa,
  saturationPressurePa,
  saturationSlopePaK,
  vapourPressureOf,
  wetBulbC,
} from '#core/air/psychrometrics.ts'
import { quickSaturationPa, quickSaturationSlopePaK } from '#core/air/saturationTable.ts'
import { humidAir, type HumidAirValue } from '../../golden/air/humidAir.ts'

function ours({ quantity, tempC, rh = 1, wetBulbC: wetC = 0, vapourPa = 0, pressurePa }: HumidAirValue): number {
  switch (quantity) {
    case 'saturationPa':
      return saturationPressurePa(tempC)
    case 'saturatedRatio':
      return humidityRatio(tempC, 1, pressurePa)
    case 'ratio':
      return humidityRatio(tempC, rh, pressurePa)
    case 'ratioOfPressure':
      return humidityRatioOf(vapourPa, pressurePa)
    case 'ratioOfWetBulb':
      return humidityRatioFromWetBulb(tempC, wetC, pressurePa)
    case 'wetBulbC':
      return wetBulbC(tempC, rh, pressurePa)
    case 'dewPointC':
      return dewPointC(tempC, rh)
  }
}

test.each(humidAir)('$quantity at $tempC °C, $rh is that of $from', (value) => {
  expect(Math.abs(ours(value) - value.value)).toBeLessThanOrEqual(value.tolerance)
})

describe('against the library psychrolib 1.1.1', () => {
  psychrolib.SetUnitSystem(psychrolib.SI)
  const temps = [-20, -5, 0, 3, 12, 20, 28, 37, 48]
  test.each(temps)('saturation pressure at %s °C within 1 ppm', (tempC) => {
    expect(saturationPressurePa(tempC) / psychrolib.GetSatVapPres(tempC)).toBeCloseTo(1, 6)
  })
  test.each(temps.flatMap((tempC) => [0.1, 0.45, 0.93].map((rh) => ({ tempC, rh }))))(
    'humidity ratio, wet bulb and dew point at $tempC °C, $rh',
    ({ tempC, rh }) => {
      expect(humidityRatio(tempC, rh) / psychrolib.GetHumRatioFromRelHum(tempC, rh, 101325)).toBeCloseTo(1, 5)
      // The library stops its iterations at 0.001 K.
      expect(wetBulbC(tempC, rh)).toBeCloseTo(psychrolib.GetTWetBulbFromRelHum(tempC, rh, 101325), 2)
      expect(dewPointC(tempC, rh)).toBeCloseTo(psychrolib.GetTDewPointFromRelHum(tempC, rh), 2)
    },
  )
})

test('vapour pressure and humidity ratio are each other turned round', () => {
  expect(vapourPressureOf(humidityRatioOf(1_234))).toBeCloseTo(1_234, 9)
})

test('the table agrees with the formula and its slope', () => {
  for (let tempC = -35; tempC < 70; tempC += 0.37) {
    expect(quickSaturationPa(tempC) / saturationOverWaterPa(tempC)).toBeCloseTo(1, 5)
    expect(quickSaturationSlopePaK(tempC) / saturationSlopePaK(tempC)).toBeCloseTo(1, 2)
  }
})

test('what cannot be is refused', () => {
  expect(() => saturationPressurePa(NaN)).toThrow(RangeError)
  expect(() => saturationPressurePa(400)).toThrow(RangeError)
  expect(() => dewPointC(20, 0)).toThrow(RangeError)
  expect(() => humidityRatioOf(2e5)).toThrow(RangeError)
})
