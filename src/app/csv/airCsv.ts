import { Refusal } from '#app/refusal.ts'
import type { AirReadingRecord } from '#contract/spot.ts'
import { indoorFromOutdoor } from '#core/air/indoor.ts'
import { celsiusFromFahrenheit } from '#core/units.ts'
import { airColumns } from './airColumns.ts'
import type { AirColumns } from './airColumns.ts'
import { csvRows } from './csvRows.ts'
import type { CsvRow } from './csvRows.ts'
import { instantsOf } from './wallTimes.ts'
import type { DateOrder } from './wallTimes.ts'

export type AirCsvOptions = {
  readonly spotId: string
  /** IANA name; for times that name no zone. */
  readonly zone: string
  readonly dateOrder?: DateOrder
  /** The log is of the air outside: it is brought to a room heated to `setPointC`. */
  readonly outdoor?: { readonly setPointC: number }
}

/** What was read, to be told to whoever brought the log. */
export type AirCsvReport = {
  readonly columns: { readonly time: string; readonly temperature: string; readonly humidity: string }
  readonly temperatureUnit: '°C' | '°F'
  readonly humidityUnit: '%' | 'fraction'
  readonly readingCount: number
  /** Rows in which the sensor gave nothing; the outlook fills such gaps. */
  readonly emptyCount: number
  /** Rows for a time that another row gives as well; the last one counts. */
  readonly repeatedCount: number
  readonly firstAt: string
  readonly lastAt: string
}

export type AirCsv = { readonly readings: readonly AirReadingRecord[]; readonly report: AirCsvReport }

/**
 * An air log of any logger: columns for time, temperature and humidity in any order, found by their headings; °C or °F,
 * percent or fraction, decimal comma or point. A temperature without unit is in °C unless some value is above 50.
 * @returns readings in order of time
 * @throws Refusal with the number of the line that is wrong
 */
export function airFromCsv(text: string, { spotId, zone, dateOrder, outdoor }: AirCsvOptions): AirCsv {
  const rows = csvRows(text)
  const columns = airColumns(rows)
  const below = rows.slice(columns.headerRow + 1)
  const full = below.filter((row) => !isEmpty(row, columns))
  if (full.length === 0) throw refusal('The air log has no readings.', 'line 1')
  full.forEach((row) => refuseMoreCells(row, columns.names.length))
  const times = full.map(({ line, cells }) => ({
    line,
    text: columns.timeColumns
      .map((at) => cells[at] ?? '')
      .join(' ')
      .trim(),
  }))
  const instants = instantsOf(times, zone, dateOrder)
  const temperatures = temperaturesOf(full, columns)
  const humidities = humiditiesOf(full, columns)
  const byTime = new Map<string, AirReadingRecord>()
  instants.forEach((at, index) => {
    const read = { tempC: temperatures.valuesC[index]!, rh: humidities.values[index]! }
    const air = outdoor ? rounded(indoorFromOutdoor(read, outdoor.setPointC)) : rounded(read)
    byTime.set(at, { spotId, at, ...air })
  })
  const readings = [...byTime.values()].toSorted((a, b) => (a.at < b.at ? -1 : 1))
  return {
    readings,
    report: {
      columns: {
        time: columns.timeColumns.map((at) => columns.names[at]!).join(' + '),
        temperature: columns.names[columns.temperatureColumn]!,
        humidity: columns.names[columns.humidityColumn]!,
      },
      temperatureUnit: temperatures.unit,
      humidityUnit: humidities.unit,
      readingCount: readings.length,
      emptyCount: below.length - full.length,
      repeatedCount: full.length - readings.length,
      firstAt: readings[0]!.at,
      lastAt: readings.at(-1)!.at,
    },
  }
}

/** What loggers write when the sensor is silent. */
const silence = /^(|-+|n\/?a|nan|null|none)$/i
const isEmpty = ({ cells }: CsvRow, { temperatureColumn, humidityColumn }: AirColumns): boolean =>
  silence.test(cells[temperatureColumn] ?? '') || silence.test(cells[humidityColumn] ?? '')

/** Decimal commas between commas would otherwise be read as columns of their own. */
function refuseMoreCells(row: CsvRow, headingCount: number): void {
  if (row.cells.slice(headingCount).every((cell) => cell === '')) return
  throw atLine(
    row,
    'there are more cells than headings. With decimal commas, separate the columns by semicolons or tabs.',
  )
}

function temperaturesOf(rows: readonly CsvRow[], { names, temperatureColumn }: AirColumns) {
  const values = rows.map((row) => numberIn(row, temperatureColumn, 'a temperature'))
  const said = `${names[temperatureColumn]} ${rows[0]!.cells[temperatureColumn]}`
  const fahrenheit = /fahrenheit|(°|º|\bdeg\.?|[([_])\s*F\b/i.test(said)
  const celsius = /celsius|(°|º|\bdeg\.?|[([_])\s*C\b/i.test(said)
  const unit = fahrenheit || (!celsius && values.some((value) => value > 50)) ? '°F' : '°C'
  const valuesC = values.map((value, index) => {
    const tempC = unit === '°F' ? celsiusFromFahrenheit(value) : value
    if (tempC < -40 || tempC > 60) throw atLine(rows[index]!, `${value} ${unit} cannot be the air of a studio.`)
    return tempC
  })
  return { unit, valuesC } as const
}

function humiditiesOf(rows: readonly CsvRow[], { names, humidityColumn }: AirColumns) {
  const values = rows.map((row) => numberIn(row, humidityColumn, 'a humidity'))
  const saysPercent = /%/.test(`${names[humidityColumn]} ${rows[0]!.cells[humidityColumn]}`)
  const unit = saysPercent || values.some((value) => value > 1.05) ? '%' : 'fraction'
  const fractions = values.map((value, index) => {
    const rh = unit === '%' ? value / 100 : value
    // Hygrometers show a little more than full in saturated air.
    if (rh < 0 || rh > 1.05)
      throw atLine(rows[index]!, `${value} ${unit === '%' ? '% ' : ''}cannot be a relative humidity.`)
    return Math.min(1, rh)
  })
  return { unit, values: fractions } as const
}

function numberIn(row: CsvRow, column: number, what: string): number {
  const cell = row.cells[column] ?? ''
  const match = /^([+-]?\d+(?:[.,]\d+)?)\s*(?:[°º]?\s*[CF]|%(?:\s*RH)?)?$/i.exec(cell)
  if (!match) throw atLine(row, `“${cell}” is not ${what}.`)
  return Number(match[1]!.replace(',', '.'))
}

/** No sensor is finer, and the file stays short. */
const rounded = ({ tempC, rh }: { readonly tempC: number; readonly rh: number }) => ({
  tempC: Number(tempC.toFixed(2)),
  rh: Number(rh.toFixed(4)),
})

const atLine = ({ line }: CsvRow, what: string): Refusal => refusal(`Line ${line}: ${what}`, `line ${line}`)
const refusal = (message: string, path: string): Refusal => new Refusal('invalid', message, [{ path, message }])
