import { boolean, doublePrecision, jsonb, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import type { ClayRecord, GlazeRecord } from '#contract/clay.ts'
import { ofStudio } from './ofStudio.ts'

export const clays = pgTable(
  'clays',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    drying: jsonb().$type<ClayRecord['drying']>().notNull(),
    shrinkage: jsonb().$type<ClayRecord['shrinkage']>().notNull(),
    coneLow: text('cone_low').$type<ClayRecord['coneLow']>().notNull(),
    coneHigh: text('cone_high').$type<ClayRecord['coneHigh']>().notNull(),
    onHandKg: doublePrecision('on_hand_kg').notNull(),
    deliveries: jsonb().$type<ClayRecord['deliveries']>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)

export const glazes = pgTable(
  'glazes',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    coneLow: text('cone_low').$type<GlazeRecord['coneLow']>().notNull(),
    coneHigh: text('cone_high').$type<GlazeRecord['coneHigh']>().notNull(),
    foodSafeTested: boolean('food_safe_tested').notNull(),
    onHandL: doublePrecision('on_hand_l'),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)
