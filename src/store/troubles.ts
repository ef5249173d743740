/** Disk and database as they fail outside our doing: a person who is told which can put it right. */
/** `away`: the same may work again in a moment. */
export type Trouble = { readonly kind: 'away' | 'disk' | 'settings'; readonly sentence: string }

const full = 'The disk is full. Make room and try again; what was acknowledged before is safe.'
const failing = 'The disk cannot be read or written as it should. Look at it and its free space, then start again.'
const away =
  'The database server cannot be reached. See that it runs and that DATABASE_URL is right, then try again; what was acknowledged before is safe.'

/** What the system, the driver and PostgreSQL call it. @see PostgreSQL documentation, appendix A, for those of five characters */
const byCode: readonly (readonly [codes: RegExp, trouble: Trouble])[] = [
  [/^(ENOSPC|EDQUOT|EFBIG|53100)$/, { kind: 'disk', sentence: full }],
  [/^(EIO|58030|58P01)$/, { kind: 'disk', sentence: failing }],
  [
    /^(ECONN\w+|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|EPIPE|CONNECT_TIMEOUT|CONNECTION_\w+|57P0[1-3]|08\w{3}|53300)$/,
    { kind: 'away', sentence: away },
  ],
  [
    /^28\w{3}$/,
    { kind: 'settings', sentence: 'The database server does not accept the name or the password in DATABASE_URL.' },
  ],
  [/^3D000$/, { kind: 'settings', sentence: 'The database that DATABASE_URL names does not exist on its server.' }],
]

/** Errors of the store whose message is for people; by name, so that no database is loaded only to tell that it failed. */
const ownErrors: Readonly<Record<string, Trouble['kind']>> = {
  DatabaseStopped: 'disk',
  BrokenLogbook: 'settings',
  NewerDatabase: 'settings',
  NotABackup: 'settings',
  WrongDatabaseUrl: 'settings',
}

/** undefined: none of these, so the fault is ours. */
export function troubleOf(error: unknown): Trouble | undefined {
  for (const cause of causesOf(error)) {
    const known = knownTrouble(cause)
    if (known) return known
  }
  return undefined
}

/**
 * An error for a log: where it arose and why, but not the rows that a query carried, which are the potter's and may be
 * megabytes.
 */
export function faultText(error: unknown): string {
  const causes = [...causesOf(error)]
  if (causes.length === 0) return String(error)
  return causes
    .map((cause) => ('query' in cause ? shortQuery(cause) : (cause.stack ?? cause.message)))
    .join('\nbecause: ')
}

function knownTrouble(error: Error): Trouble | undefined {
  const own = ownErrors[error.name]
  if (own) return { kind: own, sentence: error.message }
  const code = 'code' in error && typeof error.code === 'string' ? error.code : ''
  const place = 'path' in error && typeof error.path === 'string' ? placeOf(error.path) : 'it'
  if (/^(EACCES|EPERM|EROFS)$/.test(code))
    return {
      kind: 'settings',
      sentence: `This program may not read or write ${place}. Choose another place, or ask its owner.`,
    }
  if (/^(ENOTDIR|EEXIST|EISDIR|ENOENT)$/.test(code) && 'path' in error)
    return {
      kind: 'settings',
      sentence: `${place} is not where the program can keep this: see that its folder is there and is a folder.`,
    }
  // The embedded database ends like this when it is refused a file, most often for want of room.
  if (error.name === 'RuntimeError' && error.message.startsWith('Aborted(')) return { kind: 'disk', sentence: failing }
  if (/could not (extend|write|fsync|open) file/.test(error.message)) return { kind: 'disk', sentence: failing }
  return byCode.find(([codes]) => codes.test(code))?.[1]
}

/** The folder, if it is the lock in it that could not be made: of that nobody needs to know. */
const placeOf = (file: string): string => file.replace(/[/\\]in-use\.[^/\\]*$/, '')

function* causesOf(error: unknown): Generator<Error> {
  for (let cause = error; cause instanceof Error; cause = cause.cause) yield cause
}

const shortQuery = ({ query }: { readonly query: unknown }): string => `A query failed: ${String(query).slice(0, 200)}`
