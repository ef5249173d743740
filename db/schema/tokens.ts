import { pgTable, primaryKey, text, unique } from 'drizzle-orm/pg-core'
import { sql } from 'drizzle-orm'
import { instant } from './instant.ts'
import { ofStudio } from './ofStudio.ts'

/** Narrow keys that can be taken back: for a calendar that reads, or a sensor that sends. Never the key itself, only its hash. */
export const tokens = pgTable(
  'tokens',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    kind: text().$type<'calendar-feed' | 'sensor'>().notNull(),
    name: text().notNull(),
    /** SHA-256, hexadecimal. */
    hash: text().notNull(),
    /** The spot a sensor measures. */
    spotId: text('spot_id'),
    madeAt: instant('made_at')
      .notNull()
      .default(sql`clock_timestamp()`),
    revokedAt: instant('revoked_at'),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] }), unique('tokens_hash').on(table.hash)],
)
