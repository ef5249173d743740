import { studioFileFields } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'

/**
 * The studio as text: fixed order of keys, tables by id in code-unit order, one record a line, so that equal studios
 * are equal byte for byte and two files can be compared line by line. `readStudioFile` takes all that this writes.
 * @throws ZodError when a field is out of its range: the file could not be read again
 */
export function writeStudioFile(file: StudioFile): string {
  // Parsing puts the keys of every record in the order of its schema.
  const tables = Object.entries(studioFileFields.parse(file)).map(([name, value]) =>
    Array.isArray(value) ? `"${name}": ${linesOf(value)}` : `"${name}": ${JSON.stringify(value)}`,
  )
  return `{\n${tables.join(',\n')}\n}\n`
}

type Row = { readonly id: string } | StudioFile['airReadings'][number]

function linesOf(rows: readonly Row[]): string {
  if (rows.length === 0) return '[]'
  return `[\n${rows
    .toSorted(byId)
    .map((row) => JSON.stringify(row))
    .join(',\n')}\n]`
}

/** Readings of the air have no id: they go by spot and time, and by what was read where a time has several. */
function byId(a: Row, b: Row): number {
  if ('id' in a && 'id' in b) return byCodeUnit(a.id, b.id)
  if ('id' in a || 'id' in b) throw new RangeError('records of two tables in one')
  return byCodeUnit(a.spotId, b.spotId) || byCodeUnit(a.at, b.at) || a.tempC - b.tempC || a.rh - b.rh
}

/** Not by locale: the order must be the same on every machine. */
const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
