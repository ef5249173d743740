/** A row names another that is not there, or is still named by one. @see PostgreSQL documentation, appendix A */
export const FOREIGN_KEY_VIOLATION = '23503'

/** The five characters by which both databases say what was wrong; undefined if it was not the database that failed. */
export function sqlStateOf(error: unknown): string | undefined {
  for (let cause = error; cause instanceof Error; cause = cause.cause) {
    if ('code' in cause && typeof cause.code === 'string' && cause.code.length === 5) return cause.code
  }
  return undefined
}
