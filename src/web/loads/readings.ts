/** What somebody reads at a kiln, as typed, and what is logged of it. */
import { celsiusFromFahrenheit } from '#core/units.ts'
import type { Units } from '#words/context.ts'
import { typedNumber } from '#words/typed.ts'

export type Read<Value> = { readonly value: Value } | { readonly fault: string }

/** The hottest and the coldest that the logbook takes. */
const HOTTEST_C = 1_500
const COLDEST_C = -40
const MOST_KWH = 100_000

/** @param text in the reader's units */
export function temperatureRead(text: string, units: Units): Read<number> {
  const degrees = typedNumber(text)
  if (Number.isNaN(degrees))
    return {
      fault:
        text.trim() === ''
          ? 'Write the temperature that it shows.'
          : `“${text}” is no temperature. Write it as a number, such as 980.`,
    }
  const tempC = units === 'metric' ? degrees : celsiusFromFahrenheit(degrees)
  if (tempC < COLDEST_C || tempC > HOTTEST_C)
    return { fault: `No kiln stands at ${degrees} degrees. Look at the number again, and at the units above.` }
  return { value: Math.round(tempC * 10) / 10 }
}

/** @param text the energy of this firing alone */
export function energyRead(text: string): Read<number> {
  const energyKwh = typedNumber(text)
  if (Number.isNaN(energyKwh))
    return {
      fault:
        text.trim() === ''
          ? 'Write how many kWh it took.'
          : `“${text}” is no amount of energy. Write kWh as a number, such as 42.`,
    }
  if (energyKwh > MOST_KWH)
    return {
      fault: `${energyKwh} kWh are more than any firing takes. Take the meter’s reading before from the one after.`,
    }
  return { value: energyKwh }
}
