import { doublePrecision, integer, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import { ofStudio } from './ofStudio.ts'

/** What the logbook has taught: a parameter (its name carries the unit) of a thing, and how far it may stray. */
export const learned = pgTable(
  'learned',
  {
    studioId: ofStudio(),
    parameter: text().notNull(),
    /** The id of the spot, clay, design or kiln it belongs to; '' for the whole studio. */
    subject: text().notNull(),
    value: doublePrecision().notNull(),
    spread: doublePrecision().notNull(),
    spreadKind: text('spread_kind').$type<'plus' | 'times'>().notNull(),
    observationCount: integer('observation_count').notNull(),
    /** Of the last log entry that was taken in. */
    logPosition: integer('log_position').notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.parameter, table.subject] })],
)
