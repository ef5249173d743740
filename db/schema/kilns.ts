import { foreignKey, integer, jsonb, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import type { FiringScheduleRecord } from '#contract/firingSchedule.ts'
import type { KilnRecord } from '#contract/kiln.ts'
import { ofStudio } from './ofStudio.ts'

/** What kilns share: so many may run on it at once. */
export const supplies = pgTable(
  'supplies',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    kilnsAtOnce: integer('kilns_at_once').notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)

export const kilns = pgTable(
  'kilns',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    supplyId: text('supply_id').notNull(),
    space: jsonb().$type<KilnRecord['space']>().notNull(),
    firing: jsonb().$type<KilnRecord['firing']>().notNull(),
    fires: jsonb().$type<KilnRecord['fires']>().notNull(),
    loadMin: integer('load_min').notNull(),
    unloadMin: integer('unload_min').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    foreignKey({
      name: 'kilns_supply',
      columns: [table.studioId, table.supplyId],
      foreignColumns: [supplies.studioId, supplies.id],
    }),
  ],
)

/** Ramps and holds. */
export const firingSchedules = pgTable(
  'firing_schedules',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    kind: text().$type<FiringScheduleRecord['kind']>().notNull(),
    cone: text().$type<NonNullable<FiringScheduleRecord['cone']>>(),
    coneType: text('cone_type').$type<NonNullable<FiringScheduleRecord['coneType']>>(),
    segments: jsonb().$type<FiringScheduleRecord['segments']>().notNull(),
    coolingSegments: jsonb('cooling_segments').$type<NonNullable<FiringScheduleRecord['coolingSegments']>>(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)
