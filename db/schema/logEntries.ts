import { bigint, integer, jsonb, pgTable, primaryKey, text, unique } from 'drizzle-orm/pg-core'
import { sql } from 'drizzle-orm'
import type { EntryRecord } from '#contract/entry.ts'
import { instant } from './instant.ts'
import { ofStudio } from './ofStudio.ts'

/** What happened: only ever added to. A trigger refuses changes, and removal but with the whole studio. */
export const logEntries = pgTable(
  'log_entries',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    /** 1, 2, 3 ... in each studio, in the order in which the server took them. */
    position: integer().notNull(),
    version: integer().$type<EntryRecord['version']>().notNull(),
    kind: text().$type<EntryRecord['kind']>().notNull(),
    happenedAt: instant('happened_at').notNull(),
    roughMin: integer('rough_min').notNull(),
    deviceId: text('device_id').notNull(),
    deviceSeq: bigint('device_seq', { mode: 'number' }).notNull(),
    by: text(),
    body: jsonb().$type<EntryRecord['body']>().notNull(),
    hint: jsonb().$type<NonNullable<EntryRecord['hint']>>(),
    receivedAt: instant('received_at')
      .notNull()
      .default(sql`clock_timestamp()`),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    unique('log_entries_position').on(table.studioId, table.position),
  ],
)
