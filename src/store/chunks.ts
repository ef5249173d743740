/** One statement may carry 65,535 values; far fewer are quicker to parse, and let other work in between. */
const VALUES_PER_STATEMENT = 20_000

/** Splits rows of `columnCount` values so that each part fits in one statement. */
export function chunksOf<Row>(rows: readonly Row[], columnCount: number): Row[][] {
  const size = Math.floor(VALUES_PER_STATEMENT / columnCount)
  return Array.from({ length: Math.ceil(rows.length / size) }, (_, i) => rows.slice(i * size, (i + 1) * size))
}
