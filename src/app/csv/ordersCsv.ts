import { Refusal } from '#app/refusal.ts'
import { orderKinds, orderRecord } from '#contract/order.ts'
import type { OrderRecord } from '#contract/order.ts'
import { problemsOf } from '#contract/problems.ts'
import { seedOf } from '#core/rng.ts'
import { csvRows } from './csvRows.ts'
import type { CsvRow } from './csvRows.ts'

type Named = { readonly id: string; readonly name: string }
export type OrdersCsvOptions = { readonly designs: readonly Named[]; readonly glazes: readonly Named[] }

const columns = ['order', 'kind', 'due', 'weight', 'odds', 'design', 'glaze', 'count'] as const
type Column = (typeof columns)[number]

const headings: Readonly<Record<Column, RegExp>> = {
  order: /^(order|name|customer|for)$/i,
  kind: /^(kind|type)$/i,
  due: /^(due|due ?date|date|by)$/i,
  weight: /^weight$/i,
  odds: /^odds( wanted)?$/i,
  design: /^(design|piece|what)$/i,
  glaze: /^glaze$/i,
  count: /^(count|quantity|qty|number|pieces)$/i,
}
const needed: readonly Column[] = ['order', 'due', 'design', 'count']

/**
 * Orders from a table with one row for each line of an order; rows of one order name and due date are one order. An
 * order gets its id from these two, so that a table read twice makes no order twice.
 * @throws Refusal with the number of the line that is wrong
 */
export function ordersFromCsv(text: string, options: OrdersCsvOptions): OrderRecord[] {
  const [header, ...rows] = csvRows(text)
  const at = columnsOf(header)
  const cellOf = (row: CsvRow, column: Column): string => (row.cells[at[column]] ?? '').replace(formulaMark, '')
  const groups = new Map<string, CsvRow[]>()
  for (const row of rows) {
    const key = JSON.stringify([cellOf(row, 'order'), dateOf(row, cellOf(row, 'due'))])
    groups.set(key, [...(groups.get(key) ?? []), row])
  }
  return [...groups].map(([key, lines]) => {
    const [name, dueDate] = JSON.parse(key) as [string, string]
    const first = lines[0]!
    const id = `order-${seedOf(key).toString(16)}${seedOf(`${key}.`).toString(16)}`
    const order = {
      id,
      kind: cellOf(first, 'kind').toLowerCase() || orderKinds[0],
      name,
      dueDate,
      weight: numberOf(cellOf(first, 'weight'), 1),
      oddsWanted: numberOf(cellOf(first, 'odds'), 0.9),
      lines: lines.map((row, index) => ({
        id: `${id}-${index + 1}`,
        designId: idOf(row, 'design', cellOf(row, 'design'), options.designs),
        glazeId: cellOf(row, 'glaze') === '' ? null : idOf(row, 'glaze', cellOf(row, 'glaze'), options.glazes),
        count: numberOf(cellOf(row, 'count'), Number.NaN),
      })),
    }
    const parsed = orderRecord.safeParse(order)
    if (parsed.success) return parsed.data
    const { path, message } = problemsOf(parsed.error)[0]!
    const line = /^lines\[(\d+)\]/.exec(path)?.[1]
    throw atLine(lines[Number(line ?? 0)]!, `${message}.`)
  })
}

/** The same table, for a spreadsheet; `ordersFromCsv` takes it again. @see RFC 4180 */
export function ordersToCsv(orders: readonly OrderRecord[], { designs, glazes }: OrdersCsvOptions): string {
  const nameIn = (things: readonly Named[], id: string): string => things.find((thing) => thing.id === id)?.name ?? id
  const rows = orders.flatMap((order) =>
    order.lines.map(({ designId, glazeId, count }) => [
      order.name,
      order.kind,
      order.dueDate,
      order.weight,
      order.oddsWanted,
      nameIn(designs, designId),
      glazeId === null ? '' : nameIn(glazes, glazeId),
      count,
    ]),
  )
  return [columns, ...rows].map((row) => `${row.map(csvCell).join(',')}\r\n`).join('')
}

/** A text that begins like a formula would be reckoned by a spreadsheet: this mark before it says that it is text. */
const formulaMark = /^'(?=[=+\-@])/

function csvCell(value: string | number): string {
  const text = typeof value === 'string' && /^[=+\-@]/.test(value) ? `'${value}` : String(value)
  return /[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

function columnsOf(header: CsvRow | undefined): Readonly<Record<Column, number>> {
  const found = columns.map(
    (column) => [column, header?.cells.findIndex((cell) => headings[column].test(cell)) ?? -1] as const,
  )
  const at = Object.fromEntries(found) as Record<Column, number>
  const missing = needed.filter((column) => at[column] < 0)
  if (missing.length === 0) return at
  const message = `The table of orders needs a first row with the headings ${needed.join(', ')}; there is no ${missing.join(', ')}.`
  throw new Refusal('invalid', message, [{ path: 'line 1', message }])
}

function dateOf(row: CsvRow, text: string): string {
  const pointed = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(text)
  const date = pointed ? `${pointed[3]}-${pointed[2]!.padStart(2, '0')}-${pointed[1]!.padStart(2, '0')}` : text
  if (!/^\d{4}-\d\d-\d\d$/.test(date)) throw atLine(row, `“${text}” is not a date. Write it as 2026-03-02.`)
  return date
}

const numberOf = (text: string, absent: number): number => (text === '' ? absent : Number(text.replace(',', '.')))

function idOf(row: CsvRow, what: string, text: string, things: readonly Named[]): string {
  const found =
    things.find(({ id }) => id === text) ?? things.find(({ name }) => name.toLowerCase() === text.toLowerCase())
  if (found) return found.id
  throw atLine(
    row,
    `there is no ${what} “${text}”. There are: ${things.map(({ name }) => `“${name}”`).join(', ') || 'none yet'}.`,
  )
}

const atLine = ({ line }: CsvRow, what: string): Refusal => {
  const message = `Line ${line}: ${what}`
  return new Refusal('invalid', message, [{ path: `line ${line}`, message }])
}
