/** The air log: what sensors and people read, each reading once. */
import { and, asc, eq, gte } from 'drizzle-orm'
import { airReadings } from '#db/schema/index.ts'
import type { StudioTables } from '#db/schema/index.ts'
import { chunksOf } from './chunks.ts'
import type { Db } from './db.ts'
import { unlessReferenceBreaks } from './records.ts'

type AirReadings = StudioTables['airReadings']

/**
 * Adds readings, late ones too; one of the same spot and time is there already and stays as it is.
 * @returns how many were new; 'missing' and nothing done if a spot is not there
 */
export function insertAirReadings(db: Db, studioId: string, readings: AirReadings): Promise<number | 'missing'> {
  return unlessReferenceBreaks('missing', () => db.transaction(async (db) => addAirReadings(db, studioId, readings)))
}

/** As `insertAirReadings`, in a transaction that is already there; a spot that is not there is the database's error. */
export async function addAirReadings(db: Db, studioId: string, readings: AirReadings): Promise<number> {
  let addedCount = 0
  for (const chunk of chunksOf(readings, 5)) {
    const rows = chunk.map((reading) => ({ ...reading, studioId }))
    const added = await db.insert(airReadings).values(rows).onConflictDoNothing().returning({ at: airReadings.at })
    addedCount += added.length
  }
  return addedCount
}

/** By spot and time. `from`: only readings at or after it. */
export async function selectAirReadings(db: Db, studioId: string, from?: string): Promise<AirReadings> {
  const { spotId, at, tempC, rh } = airReadings
  const readings = await db
    .select({ spotId, at, tempC, rh })
    .from(airReadings)
    .where(and(eq(airReadings.studioId, studioId), from === undefined ? undefined : gte(at, from)))
    .orderBy(asc(at))
  return readings.toSorted((a, b) => (a.spotId === b.spotId ? 0 : a.spotId < b.spotId ? -1 : 1))
}
