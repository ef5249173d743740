/** How the records of a studio lie in tables: one row each, but for designs and orders, whose lists have tables of their own. */
import type { PgColumn, PgTable } from 'drizzle-orm/pg-core'
import {
  busyTimes,
  clays,
  designParts,
  designs,
  designSteps,
  firingSchedules,
  glazes,
  hours,
  kilns,
  makers,
  moulds,
  orderLines,
  orders,
  pins,
  spots,
  stock,
  supplies,
} from '#db/schema/index.ts'
import type { StudioTables } from '#db/schema/index.ts'

/** The tables of things that a potter sets down one by one. */
export type RecordName = Exclude<keyof StudioTables, 'studio' | 'airReadings'>

export type RowTable = PgTable & { readonly studioId: PgColumn; readonly id: PgColumn }
export type ListShape = {
  readonly field: string
  readonly table: RowTable
  /** The column that names the record whose list it is. */
  readonly ownerId: string
}
export type RecordShape = {
  readonly table: RowTable
  /** The fields that a record may leave out; null in the table. */
  readonly leftOut?: readonly string[]
  /** The fields that are lists of their own, in an order that counts. */
  readonly lists?: readonly ListShape[]
}

/** In an order in which each names only what stands before it. */
export const recordShapes: Readonly<Record<RecordName, RecordShape>> = {
  makers: { table: makers },
  hours: { table: hours },
  busyTimes: { table: busyTimes },
  spots: { table: spots },
  clays: { table: clays },
  glazes: { table: glazes },
  supplies: { table: supplies },
  kilns: { table: kilns },
  moulds: { table: moulds },
  firingSchedules: { table: firingSchedules, leftOut: ['cone', 'coneType', 'coolingSegments'] },
  designs: {
    table: designs,
    lists: [
      { field: 'parts', table: designParts, ownerId: 'designId' },
      { field: 'steps', table: designSteps, ownerId: 'designId' },
    ],
  },
  orders: { table: orders, lists: [{ field: 'lines', table: orderLines, ownerId: 'orderId' }] },
  stock: { table: stock },
  pins: { table: pins },
}

export const recordNames = Object.keys(recordShapes) as readonly RecordName[]
