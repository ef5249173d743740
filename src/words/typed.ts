/** What people type, read back: the other way round from `amounts.ts`. */
import { KG_PER_POUND, MM_PER_INCH } from '#core/units.ts'
import type { Units } from './context.ts'

/** How many millimetres a written unit is. */
const unitsMm: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  in: MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
  '″': MM_PER_INCH,
}

const unitsKg: Readonly<Record<string, number>> = { kg: 1, g: 0.001, lb: KG_PER_POUND, lbs: KG_PER_POUND }

/**
 * "240", "24 cm", "9 7/16 in", "1/4"; without a unit, in the person's own.
 * @returns mm, to a hundredth; NaN for what is no length
 */
export const typedLengthMm = (text: string, units: Units): number =>
  typedAmount(text, unitsMm, units === 'us' ? MM_PER_INCH : 1)

/** "12.5", "25 lb". @returns kg, to a hundredth; NaN for what is no mass */
export const typedMassKg = (text: string, units: Units): number =>
  typedAmount(text, unitsKg, units === 'us' ? KG_PER_POUND : 1)

/** "12", and nothing else that a machine would take for 12. @returns a whole number from 0; NaN for what is none */
export const typedCount = (text: string): number => (/^\d{1,9}$/.test(text.trim()) ? Number(text) : Number.NaN)

/** "12", "2,5". @returns NaN for what is no number */
export const typedNumber = (text: string): number => typedAmount(text, {}, 1)

function typedAmount(text: string, known: Readonly<Record<string, number>>, own: number): number {
  const [, number = '', unit = ''] = /^([\d.,/\s]+)(.*)$/.exec(text.trim().toLowerCase()) ?? []
  const factor = unit === '' ? own : known[unit.trim()]
  return factor === undefined ? Number.NaN : Math.round(numberOf(number.trim()) * factor * 100) / 100
}

/**
 * A decimal with point or comma, a fraction, or a whole with a fraction. A comma before three digits may be meant either
 * way, so it is no number.
 */
function numberOf(text: string): number {
  const [, whole = '0', over, under] = /^(?:(\d+)\s+)?(\d+)\s*\/\s*([1-9]\d*)$/.exec(text) ?? []
  if (over !== undefined && under !== undefined) return Number(whole) + Number(over) / Number(under)
  return /^\d*[.,]?\d+$/.test(text) && !/\d,\d{3}$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN
}
