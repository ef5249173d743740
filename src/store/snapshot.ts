import type { Db } from './db.ts'

/** Runs `read` on the database as it is at one moment, whatever is written meanwhile. */
export const atOneMoment = <Result>(db: Db, read: (db: Db) => Promise<Result>): Promise<Result> =>
  db.transaction(async (db) => read(db), { isolationLevel: 'repeatable read', accessMode: 'read only' })
