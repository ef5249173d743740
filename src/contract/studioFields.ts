/** The fields of the studio file: what a studio has and wants, and what happened. No plans, nothing learned. */
import { z } from 'zod'
import { clayRecord, glazeRecord } from './clay.ts'
import { designRecord, mouldRecord } from './design.ts'
import { entryRecord } from './entry.ts'
import { listOf, mustBe, record } from './fields.ts'
import { firingScheduleRecord } from './firingSchedule.ts'
import type { Frozen } from './frozen.ts'
import { kilnRecord, supplyRecord } from './kiln.ts'
import { busyTimeRecord, hoursRecord, makerRecord } from './maker.ts'
import { orderRecord, pinRecord, stockRecord } from './order.ts'
import { airReadingRecord, spotRecord } from './spot.ts'
import { studioRecord } from './studio.ts'
import { instant } from './time.ts'

export const STUDIO_FORMAT = 'wareboard-studio'
export const STUDIO_VERSION = 1

const tables = {
  studio: studioRecord,
  makers: listOf('makers', makerRecord, 0, 200),
  hours: listOf('hours', hoursRecord, 0, 2_000),
  busyTimes: listOf('busy times', busyTimeRecord, 0, 20_000),
  spots: listOf('spots', spotRecord, 0, 500),
  clays: listOf('clays', clayRecord, 0, 500),
  glazes: listOf('glazes', glazeRecord, 0, 2_000),
  supplies: listOf('supplies', supplyRecord, 0, 100),
  kilns: listOf('kilns', kilnRecord, 0, 100),
  moulds: listOf('moulds', mouldRecord, 0, 1_000),
  firingSchedules: listOf('firing schedules', firingScheduleRecord, 0, 500),
  designs: listOf('designs', designRecord, 0, 5_000),
  orders: listOf('orders', orderRecord, 0, 20_000),
  stock: listOf('stock', stockRecord, 0, 20_000),
  pins: listOf('pins', pinRecord, 0, 5_000),
  airReadings: listOf('readings of the air', airReadingRecord, 0, 2_000_000),
  entries: listOf('entries', entryRecord, 0, 2_000_000),
}

/** Every field, and no reference between them checked yet. */
export const studioFileFields = record('a studio file', {
  format: z.literal(STUDIO_FORMAT, { error: mustBe('The format', `“${STUDIO_FORMAT}”`) }),
  version: z.literal(STUDIO_VERSION, {
    error: mustBe('The version', `${STUDIO_VERSION}, the one that this program reads`),
  }),
  asOf: instant('The time of the file'),
  ...tables,
})

export type StudioFile = Frozen<z.infer<typeof studioFileFields>>
/** The tables of a studio without the file around them, as the store gives them; the logbook is not one of them. */
export type StudioTables = Omit<StudioFile, 'format' | 'version' | 'asOf' | 'entries'>
