import type { SpotRecord } from '#contract/spot.ts'
import type { Db } from '#store/db.ts'
import { insertAirReadings } from '#store/airReadings.ts'
import { selectRecords } from '#store/records.ts'
import { airFromCsv } from '../csv/airCsv.ts'
import type { AirCsv, AirCsvOptions, AirCsvReport } from '../csv/airCsv.ts'
import { onlyStudio } from '../records/onlyStudio.ts'
import { Refusal } from '../refusal.ts'

export type ImportAirRequest = Pick<AirCsvOptions, 'dateOrder' | 'outdoor'> & {
  readonly text: string
  /** The spot by its name or its id. */
  readonly spot: string
}

/**
 * Takes a logger's table into the air log of a spot. Readings that are there already stay as they are.
 * @returns what was read, and how much of it was new
 * @throws Refusal `not-found` for a spot that there is not, `invalid` with the line that is wrong
 */
export async function importAir(
  db: Db,
  request: ImportAirRequest,
): Promise<AirCsvReport & { readonly addedCount: number }> {
  const studio = await onlyStudio(db)
  const { readings, report } = readAir({ studio, spots: await selectRecords(db, studio.id, 'spots') }, request)
  const addedCount = await insertAirReadings(db, studio.id, readings)
  if (addedCount === 'missing') throw new Refusal('conflict', `The spot “${request.spot}” was removed meanwhile.`)
  return { ...report, addedCount }
}

/** The readings of a logger's table, for a spot of the studio. @throws Refusal as `importAir` */
export function readAir(
  { studio, spots }: { readonly studio: { readonly zone: string }; readonly spots: readonly SpotRecord[] },
  { text, spot, ...options }: ImportAirRequest,
): AirCsv {
  const found =
    spots.find(({ id }) => id === spot) ?? spots.find(({ name }) => name.toLowerCase() === spot.toLowerCase())
  if (!found) {
    const names = spots.map(({ name }) => `“${name}”`).join(', ')
    throw new Refusal('not-found', `There is no spot “${spot}”; there are: ${names || 'none yet'}.`)
  }
  const { outdoor: _outdoor, ...asRead } = options
  // A spot that lives by the weather keeps it as it was outside.
  return airFromCsv(text, {
    ...(found.air.kind === 'outdoors' ? asRead : options),
    spotId: found.id,
    zone: studio.zone,
  })
}
