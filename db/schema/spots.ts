import { doublePrecision, foreignKey, integer, jsonb, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import type { SpotRecord } from '#contract/spot.ts'
import { instant } from './instant.ts'
import { ofStudio } from './ofStudio.ts'

export const spots = pgTable(
  'spots',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    boardCount: integer('board_count').notNull(),
    board: text().$type<SpotRecord['board']>().notNull(),
    airSpeedMS: doublePrecision('air_speed_m_s').notNull(),
    air: jsonb().$type<SpotRecord['air']>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)

/** The air log; its key makes a reading sent twice one reading. */
export const airReadings = pgTable(
  'air_readings',
  {
    studioId: ofStudio(),
    spotId: text('spot_id').notNull(),
    at: instant().notNull(),
    tempC: doublePrecision('temp_c').notNull(),
    rh: doublePrecision().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.spotId, table.at] }),
    foreignKey({
      name: 'air_readings_spot',
      columns: [table.studioId, table.spotId],
      foreignColumns: [spots.studioId, spots.id],
    }).onDelete('cascade'),
  ],
)
