import { boolean, doublePrecision, integer, jsonb, pgTable, text } from 'drizzle-orm/pg-core'
import type { StudioRecord } from '#contract/studio.ts'

/** One row a studio; every other row belongs to one and goes with it. */
export const studios = pgTable('studios', {
  id: text().primaryKey(),
  name: text().notNull(),
  zone: text().notNull(),
  wareBoardCount: integer('ware_board_count').notNull(),
  covers: jsonb().$type<StudioRecord['covers']>().notNull(),
  leastSessionMin: integer('least_session_min').notNull(),
  lookInMin: integer('look_in_min').notNull(),
  windowOdds: doublePrecision('window_odds').notNull(),
  glazeDryHours: doublePrecision('glaze_dry_hours').notNull(),
  mixBisqueAndGlaze: boolean('mix_bisque_and_glaze').notNull(),
  wantedFill: doublePrecision('wanted_fill').notNull(),
  pricePerKwh: doublePrecision('price_per_kwh').notNull(),
  co2KgPerKwh: doublePrecision('co2_kg_per_kwh').notNull(),
  altitudeM: doublePrecision('altitude_m').notNull(),
  /** Of the newest log entry: held by whoever adds one until it is committed, so that positions have no gaps. */
  logPosition: integer('log_position').notNull().default(0),
})
