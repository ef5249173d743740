import { doublePrecision, foreignKey, integer, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import type { OrderRecord, StockRecord } from '#contract/order.ts'
import { glazes } from './clays.ts'
import { designs } from './designs.ts'
import { instant } from './instant.ts'
import { makers } from './makers.ts'
import { ofStudio } from './ofStudio.ts'

export const orders = pgTable(
  'orders',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    kind: text().$type<OrderRecord['kind']>().notNull(),
    name: text().notNull(),
    /** A day in the studio's zone, as text: no driver shall turn it into a moment. */
    dueDate: text('due_date').notNull(),
    weight: doublePrecision().notNull(),
    oddsWanted: doublePrecision('odds_wanted').notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)

export const orderLines = pgTable(
  'order_lines',
  {
    studioId: ofStudio(),
    orderId: text('order_id').notNull(),
    id: text().notNull(),
    /** Its place in the order's list, from 0. */
    place: integer().notNull(),
    designId: text('design_id').notNull(),
    glazeId: text('glaze_id'),
    count: integer().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.orderId, table.id] }),
    foreignKey({
      name: 'order_lines_order',
      columns: [table.studioId, table.orderId],
      foreignColumns: [orders.studioId, orders.id],
    }).onDelete('cascade'),
    foreignKey({
      name: 'order_lines_design',
      columns: [table.studioId, table.designId],
      foreignColumns: [designs.studioId, designs.id],
    }),
    foreignKey({
      name: 'order_lines_glaze',
      columns: [table.studioId, table.glazeId],
      foreignColumns: [glazes.studioId, glazes.id],
    }),
  ],
)

/** Good ware on the shelf when the studio was set down; what came and went since is the logbook's. */
export const stock = pgTable(
  'stock',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    designId: text('design_id').notNull(),
    stage: text().$type<StockRecord['stage']>().notNull(),
    glazeId: text('glaze_id'),
    count: integer().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    foreignKey({
      name: 'stock_design',
      columns: [table.studioId, table.designId],
      foreignColumns: [designs.studioId, designs.id],
    }),
    foreignKey({
      name: 'stock_glaze',
      columns: [table.studioId, table.glazeId],
      foreignColumns: [glazes.studioId, glazes.id],
    }),
  ],
)

/** What the potter has fixed. Runs are the logbook's and the plan's, so nothing here can hold their ids to it. */
export const pins = pgTable(
  'pins',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    runId: text('run_id').notNull(),
    stepId: text('step_id').notNull(),
    startsAt: instant('starts_at').notNull(),
    makerId: text('maker_id'),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    foreignKey({
      name: 'pins_maker',
      columns: [table.studioId, table.makerId],
      foreignColumns: [makers.studioId, makers.id],
    }),
  ],
)
