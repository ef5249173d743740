import { Refusal } from '#app/refusal.ts'

/** One row of a table in text; `line` is that of its first character, from 1. */
export type CsvRow = { readonly line: number; readonly cells: readonly string[] }

/** Tab and semicolon come before the comma, which may be a decimal comma. */
const delimiters = ['\t', ';', ','] as const

/**
 * The rows of a table in text: separated by tabs, semicolons or commas, whichever most lines have; cells may be quoted.
 * Empty lines are left out, and spaces around cells. Lines may end as on any system.
 * @throws Refusal if the text is too long to be gone through at once, or a quote is never closed
 * @see RFC 4180
 */
export function csvRows(text: string): CsvRow[] {
  if (text.length > MOST_CHARACTERS) throw new Refusal('too-large', tooLong)
  const content = text.replace(/^\uFEFF/, '').replaceAll(/\r\n?/g, '\n')
  const lines = content.split('\n').filter((line) => line.trim() !== '')
  const inMost = (delimiter: string): boolean =>
    2 * lines.filter((line) => line.replaceAll(/"[^"]*"/g, '').includes(delimiter)).length > lines.length
  return rowsOf(content, delimiters.find(inMost) ?? ',')
}

/** An air log of a year of minutes has half of that; the database takes some minutes for it. */
const MOST_CHARACTERS = 40_000_000
const tooLong = `The table is too long: at most ${MOST_CHARACTERS / 1_000_000} million characters come in at once. Bring it in in parts.`

function rowsOf(text: string, delimiter: string): CsvRow[] {
  const rows: CsvRow[] = []
  let cells: string[] = []
  let cell = ''
  let line = 1
  let rowLine = 1
  let quoted = false
  let quoteLine = line
  const endCell = () => {
    cells.push(cell.trim())
    cell = ''
  }
  const endRow = () => {
    endCell()
    if (cells.some((one) => one !== '')) rows.push({ line: rowLine, cells })
    cells = []
    rowLine = line
  }
  for (let at = 0; at < text.length; at++) {
    const char = text[at]!
    if (char === '\n') line++
    if (quoted) {
      if (char !== '"') cell += char
      else if (text[at + 1] === '"') cell += text[++at]
      else quoted = false
    } else if (char === '"' && cell.trim() === '') {
      quoted = true
      quoteLine = line
      cell = ''
    } else if (char === delimiter) endCell()
    else if (char === '\n') endRow()
    else cell += char
  }
  if (quoted) throw neverClosed(quoteLine)
  endRow()
  return rows
}

function neverClosed(line: number): Refusal {
  const message = `Line ${line}: the quotation mark is never closed.`
  return new Refusal('invalid', message, [{ path: `line ${line}`, message }])
}
