import type { Db } from './db.ts'

/** An open database. */
export type Store = {
  readonly db: Db
  readonly kind: 'folder' | 'server'
  /** Lets a second process that finds the folder taken call our server instead. Nothing to do on a database server. */
  readonly announcePort: (port: number) => void
  /**
   * Writes a dated backup and returns its path; of the backups made by itself only the newest are kept.
   * null: a database server is backed up by those who run it.
   */
  readonly backUp: (() => Promise<string>) | null
  /** The same unless the newest is less than a day old; then null. */
  readonly backUpDaily: ((nowMs: number) => Promise<string | null>) | null
  /** Safe to call twice. Afterwards the folder is free. */
  readonly close: () => Promise<void>
}
