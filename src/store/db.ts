import type { PgDatabase, PgQueryResultHKT } from 'drizzle-orm/pg-core'
import type * as schema from '#db/schema/index.ts'

/** Either database, or a transaction on it; every store function takes one as its first argument. */
export type Db = PgDatabase<PgQueryResultHKT, typeof schema>
