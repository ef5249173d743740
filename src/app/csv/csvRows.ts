/** One row of a table in text; `line` is that of its first character, from 1. */
export type CsvRow = { readonly line: number; readonly cells: readonly string[] }

/** Tab and semicolon come before the comma, which may be a decimal comma. */
const delimiters = ['\t', ';', ','] as const

/**
 * The rows of a table in text: separated by tabs, semicolons or commas, whichever most lines have; cells may be quoted.
 * Empty lines are left out, and spaces around cells.
 * @see RFC 4180
 */
export function csvRows(text: string): CsvRow[] {
  const content = text.replace(/^\uFEFF/, '')
  const lines = content.split(/\r?\n/).filter((line) => line.trim() !== '')
  const inMost = (delimiter: string): boolean =>
    2 * lines.filter((line) => line.replaceAll(/"[^"]*"/g, '').includes(delimiter)).length > lines.length
  return rowsOf(content, delimiters.find(inMost) ?? ',')
}

function rowsOf(text: string, delimiter: string): CsvRow[] {
  const rows: CsvRow[] = []
  let cells: string[] = []
  let cell = ''
  let line = 1
  let rowLine = 1
  let quoted = false
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
      cell = ''
    } else if (char === delimiter) endCell()
    else if (char === '\n') endRow()
    else if (char !== '\r') cell += char
  }
  endRow()
  return rows
}
