import { expect, test } from 'vitest'
import { lengthText, massText } from '#words/amounts.ts'
import { typedCount, typedLengthMm, typedMassKg, typedNumber } from '#words/typed.ts'

// An inch is 25.4 mm, a pound 0.45359237 kg, both by definition.
test.each([
  ['240', 'metric', 240],
  [' 24 cm', 'metric', 240],
  ['6,5', 'metric', 6.5],
  ['.5 in', 'metric', 12.7],
  ['9 7/16', 'us', 239.71],
  ['1/4"', 'us', 6.35],
  ['9 1/2 inches', 'us', 241.3],
  ['160 mm', 'us', 160],
] as const)('the length “%s” (%s) is %d mm', (text, units, lengthMm) =>
  expect(typedLengthMm(text, units)).toBe(lengthMm),
)

test.each(['', 'wide', '12 ells', '1/0', '1/2/3', '--', '1.2.3', '12,', '-5'])('“%s” is no length', (text) =>
  expect(Number.isFinite(typedLengthMm(text, 'metric'))).toBe(false),
)

test('masses are read in kilograms or pounds', () => {
  expect(typedMassKg('50', 'metric')).toBe(50)
  expect(typedMassKg('25 lb', 'metric')).toBe(11.34)
  expect(typedMassKg('100', 'us')).toBe(45.36)
})

test('what is said is read back the same, to a sixteenth of an inch and a tenth of a pound', () => {
  for (let lengthMm = 3; lengthMm < 600; lengthMm += 7.3) {
    expect(Math.abs(typedLengthMm(lengthText(lengthMm, 'us'), 'us') - lengthMm)).toBeLessThanOrEqual(25.4 / 32 + 0.01)
    expect(Math.abs(typedMassKg(massText(lengthMm, 'us'), 'us') - lengthMm)).toBeLessThanOrEqual(0.0454 / 2 + 0.01)
  }
})

test('a bare number has no unit', () => {
  expect(typedNumber('12')).toBe(12)
  expect(typedNumber('12 mm')).toBeNaN()
})

test('a comma before three digits could mean either, so it is asked again', () => {
  expect(typedNumber('2,5')).toBe(2.5)
  expect(typedNumber('2,232')).toBeNaN()
  expect(typedNumber('1/0')).toBeNaN()
})

test('a count is digits only', () => {
  expect(typedCount(' 12 ')).toBe(12)
  for (const text of ['', '-3', '2.5', '1e3', '0x10', 'twelve', '9'.repeat(10)]) expect(typedCount(text)).toBeNaN()
})
