import { foreignKey, integer, jsonb, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import type { HoursRecord, MakerRecord } from '#contract/maker.ts'
import { ofStudio } from './ofStudio.ts'

export const makers = pgTable(
  'makers',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    skills: jsonb().$type<MakerRecord['skills']>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)

/** Hours that come back, on the wall of the studio. */
export const hours = pgTable(
  'hours',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    makerId: text('maker_id').notNull(),
    purpose: text().$type<HoursRecord['purpose']>().notNull(),
    rrule: text().notNull(),
    /** Text as on the wire: days and times without a zone, which no driver shall turn into moments. */
    startDate: text('start_date').notNull(),
    startTime: text('start_time').notNull(),
    durationMin: integer('duration_min').notNull(),
    exceptDates: jsonb('except_dates').$type<HoursRecord['exceptDates']>().notNull(),
    extraDates: jsonb('extra_dates').$type<HoursRecord['extraDates']>().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    foreignKey({
      name: 'hours_maker',
      columns: [table.studioId, table.makerId],
      foreignColumns: [makers.studioId, makers.id],
    }).onDelete('cascade'),
  ],
)

/** Times that are taken, once, on the wall of the studio. */
export const busyTimes = pgTable(
  'busy_times',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    makerId: text('maker_id').notNull(),
    start: text().notNull(),
    end: text().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    foreignKey({
      name: 'busy_times_maker',
      columns: [table.studioId, table.makerId],
      foreignColumns: [makers.studioId, makers.id],
    }).onDelete('cascade'),
  ],
)
