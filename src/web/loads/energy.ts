/** Energy, cost and carbon of a firing, said together. */
import { carbonKg } from '#core/firing/energy.ts'
import type { StudioRulesOfHouse } from '#core/studio/studio.ts'

type Rules = Pick<StudioRulesOfHouse, 'pricePerKwh' | 'co2KgPerKwh'>

/** "33 kWh by the meter (41 reckoned), 9.90 at 0.3 per kWh, 7 kg of CO2". @param readKwh null: nobody read the meter */
export function energyText(
  readKwh: number | null,
  reckonedKwh: number | null,
  { pricePerKwh, co2KgPerKwh }: Rules,
  locale: string,
): string {
  const kwh = readKwh ?? reckonedKwh
  if (kwh === null) return 'nobody read the meter'
  const amount =
    readKwh === null
      ? `${Math.round(kwh)} kWh`
      : `${Math.round(readKwh)} kWh by the meter${reckonedKwh === null ? '' : ` (${Math.round(reckonedKwh)} reckoned)`}`
  const carbon = co2KgPerKwh > 0 ? `, ${Math.round(carbonKg(kwh, co2KgPerKwh))} kg of CO2` : ''
  // A studio that has not said its price has none.
  if (pricePerKwh === 0) return `${amount}${carbon}`
  const money = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2 })
  return `${amount}, ${money.format(kwh * pricePerKwh)} at ${pricePerKwh} per kWh${carbon}`
}
