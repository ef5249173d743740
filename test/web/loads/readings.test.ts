import { describe, expect, test } from 'vitest'
import { energyText } from '../../../src/web/loads/energy.ts'
import { energyRead, temperatureRead } from '../../../src/web/loads/readings.ts'

describe('a temperature', () => {
  test('is taken in the reader’s units', () => {
    expect(temperatureRead('980', 'metric')).toEqual({ value: 980 })
    // 1796 °F is 980 °C.
    expect(temperatureRead('1796', 'us')).toEqual({ value: 980 })
    expect(temperatureRead('573,5', 'metric')).toEqual({ value: 573.5 })
  })
  test.each(['', 'hot', '9 80 °'])('“%s” is asked for again', (text) =>
    expect(temperatureRead(text, 'metric')).toHaveProperty('fault'),
  )
  test('that no kiln has is doubted: degrees of the other kind, most likely', () =>
    expect(temperatureRead('2232', 'metric')).toMatchObject({ fault: expect.stringContaining('units') }))
})

test('energy is a number of kWh', () => {
  expect(energyRead('42.5')).toEqual({ value: 42.5 })
  expect(energyRead('')).toHaveProperty('fault')
  expect(energyRead('200000')).toHaveProperty('fault')
})

test('energy is said with its cost and its carbon, by the meter where it was read', () => {
  const rules = { pricePerKwh: 0.3, co2KgPerKwh: 0.2 }
  // 40 kWh at 0.3 are 12; at 0.2 kg each they are 8 kg.
  expect(energyText(null, 40, { ...rules, pricePerKwh: 0 }, 'en-GB')).toBe('40 kWh, 8 kg of CO2')
  expect(energyText(null, 40, rules, 'en-GB')).toBe('40 kWh, 12.00 at 0.3 per kWh, 8 kg of CO2')
  expect(energyText(33, 40, rules, 'en-GB')).toBe('33 kWh by the meter (40 reckoned), 9.90 at 0.3 per kWh, 7 kg of CO2')
  expect(energyText(null, null, rules, 'en-GB')).toBe('nobody read the meter')
})
