import { Refusal } from '#app/refusal.ts'
import type { CsvRow } from './csvRows.ts'

/** Which column is what. `timeColumns`: one, or one for the date and one for the time. */
export type AirColumns = {
  readonly headerRow: number
  readonly timeColumns: readonly number[]
  readonly temperatureColumn: number
  readonly humidityColumn: number
  readonly names: readonly string[]
}

/** Loggers put their name, place and settings before the table. */
const MOST_ROWS_BEFORE_HEADER = 60

const isDate = (name: string): boolean => /date|datum|fecha|\bday\b/i.test(name)
const isTime = (name: string): boolean => /time|zeit|uhr|heure|hora|stamp/i.test(name) && !/zone|elapsed/i.test(name)
const isTemperature = (name: string): boolean =>
  /temp|°\s*[cf]\b|celsius|fahrenheit/i.test(name) && !/stempel/i.test(name) && !isOtherAir(name)
const isHumidity = (name: string): boolean => /hum|feucht|\br\.?h\b|%/i.test(name) && !isOtherAir(name)
/** Loggers also give dew point, wet bulb and grams of water. */
const isOtherAir = (name: string): boolean => /dew|taupunkt|ros[ée]|wet.?bulb|abs|g\/m/i.test(name)

/** @throws Refusal naming the columns that were not found */
export function airColumns(rows: readonly CsvRow[]): AirColumns {
  for (const [headerRow, row] of rows.slice(0, MOST_ROWS_BEFORE_HEADER).entries()) {
    // Machines write `temp_c` and `rh_pct`.
    const cells = row.cells.map((name) => name.replaceAll('_', ' '))
    const timeColumns = timeColumnsOf(cells)
    const temperatureColumn = cells.findIndex(isTemperature)
    const humidityColumn = cells.findIndex(isHumidity)
    if (timeColumns.length === 0 || temperatureColumn < 0 || humidityColumn < 0) continue
    return { headerRow, timeColumns, temperatureColumn, humidityColumn, names: row.cells }
  }
  const message =
    'The air log needs a row of headings with a time, a temperature and a humidity, such as: Time, Temperature °C, Humidity %.'
  throw new Refusal('invalid', message, [{ path: 'line 1', message }])
}

function timeColumnsOf(cells: readonly string[]): number[] {
  const both = cells.findIndex((name) => (isDate(name) && isTime(name)) || /stamp|stempel/i.test(name))
  if (both >= 0) return [both]
  const date = cells.findIndex(isDate)
  const time = cells.findIndex(isTime)
  return [date, time].filter((column) => column >= 0)
}
