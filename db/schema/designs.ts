import { boolean, doublePrecision, foreignKey, integer, jsonb, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import type { DesignRecord } from '#contract/design.ts'
import { clays } from './clays.ts'
import { firingSchedules } from './kilns.ts'
import { ofStudio } from './ofStudio.ts'

type Part = DesignRecord['parts'][number]
type Step = DesignRecord['steps'][number]

export const moulds = pgTable(
  'moulds',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    count: integer().notNull(),
  },
  (table) => [primaryKey({ columns: [table.studioId, table.id] })],
)

export const designs = pgTable(
  'designs',
  {
    studioId: ofStudio(),
    id: text().notNull(),
    name: text().notNull(),
    clayId: text('clay_id').notNull(),
    outline: text().$type<DesignRecord['outline']>().notNull(),
    lengthMm: doublePrecision('length_mm').notNull(),
    widthMm: doublePrecision('width_mm').notNull(),
    heightMm: doublePrecision('height_mm').notNull(),
    cornerRadiusMm: doublePrecision('corner_radius_mm').notNull(),
    evenOutHours: jsonb('even_out_hours').$type<DesignRecord['evenOutHours']>().notNull(),
    slowDryHours: doublePrecision('slow_dry_hours').notNull(),
    thickestMm: doublePrecision('thickest_mm').notNull(),
    closedForm: boolean('closed_form').notNull(),
    piecesPerBoard: integer('pieces_per_board').notNull(),
    mostPerRun: integer('most_per_run').notNull(),
    bisqueScheduleId: text('bisque_schedule_id').notNull(),
    glazeScheduleId: text('glaze_schedule_id').notNull(),
    glazeIds: jsonb('glaze_ids').$type<DesignRecord['glazeIds']>().notNull(),
    glazePerPieceL: doublePrecision('glaze_per_piece_l').notNull(),
    losses: jsonb().$type<DesignRecord['losses']>().notNull(),
    stacking: jsonb().$type<DesignRecord['stacking']>().notNull(),
    turnsFreely: boolean('turns_freely').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.id] }),
    foreignKey({
      name: 'designs_clay',
      columns: [table.studioId, table.clayId],
      foreignColumns: [clays.studioId, clays.id],
    }),
    foreignKey({
      name: 'designs_bisque_schedule',
      columns: [table.studioId, table.bisqueScheduleId],
      foreignColumns: [firingSchedules.studioId, firingSchedules.id],
    }),
    foreignKey({
      name: 'designs_glaze_schedule',
      columns: [table.studioId, table.glazeScheduleId],
      foreignColumns: [firingSchedules.studioId, firingSchedules.id],
    }),
  ],
)

export const designParts = pgTable(
  'design_parts',
  {
    studioId: ofStudio(),
    designId: text('design_id').notNull(),
    id: text().notNull(),
    /** Its place in the design's list, from 0. */
    place: integer().notNull(),
    name: text().notNull(),
    countPerPiece: integer('count_per_piece').notNull(),
    lengthMm: doublePrecision('length_mm').notNull(),
    widthMm: doublePrecision('width_mm').notNull(),
    thicknessMm: doublePrecision('thickness_mm').notNull(),
    templateState: text('template_state').$type<Part['templateState']>().notNull(),
    middleStaysIn: boolean('middle_stays_in').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.designId, table.id] }),
    foreignKey({
      name: 'design_parts_design',
      columns: [table.studioId, table.designId],
      foreignColumns: [designs.studioId, designs.id],
    }).onDelete('cascade'),
  ],
)

export const designSteps = pgTable(
  'design_steps',
  {
    studioId: ofStudio(),
    designId: text('design_id').notNull(),
    id: text().notNull(),
    /** Its place in the order of work, from 0. */
    place: integer().notNull(),
    kind: text().$type<Step['kind']>().notNull(),
    name: text().notNull(),
    needs: text().$type<Step['needs']>().notNull(),
    setupMin: doublePrecision('setup_min').notNull(),
    minPerPiece: doublePrecision('min_per_piece').notNull(),
    band: jsonb().$type<NonNullable<Step['band']>>(),
    partIds: jsonb('part_ids').$type<Step['partIds']>().notNull(),
    mouldId: text('mould_id'),
  },
  (table) => [
    primaryKey({ columns: [table.studioId, table.designId, table.id] }),
    foreignKey({
      name: 'design_steps_design',
      columns: [table.studioId, table.designId],
      foreignColumns: [designs.studioId, designs.id],
    }).onDelete('cascade'),
    foreignKey({
      name: 'design_steps_mould',
      columns: [table.studioId, table.mouldId],
      foreignColumns: [moulds.studioId, moulds.id],
    }),
  ],
)
