import { index, integer, json, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import { sql } from 'drizzle-orm'
import type { Plan, PlanInput } from '#core/planning/plan.ts'
import { instant } from './instant.ts'
import { ofStudio } from './ofStudio.ts'

/** Plans as they were made; a trigger refuses changes. `json` and not `jsonb`, which would give other bytes back. */
export const plans = pgTable(
  'plans',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    /** Of the last log entry that was taken in. */
    logPosition: integer('log_position').notNull(),
    input: json().$type<PlanInput>().notNull(),
    plan: json().$type<Plan>().notNull(),
    madeAt: instant('made_at')
      .notNull()
      .default(sql`clock_timestamp()`),
    /** 1, 2, 3 ... in each studio, in the order in which they were saved. */
    number: integer().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    index('plans_newest').on(table.studioId, table.number),
  ],
)
