import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { Db } from '#store/db.ts'
import { exportStudio as readWhole } from '#store/studios.ts'
import { Refusal } from '../refusal.ts'
import { writeStudioFile } from '../studio/writeStudioFile.ts'

/**
 * The whole studio as the text of one file, the same bytes whenever the studio is the same but for its time.
 * @param at the moment, UTC
 * @throws Refusal `not-found`
 */
export async function exportStudio(db: Db, studioId: string, at: string): Promise<string> {
  const whole = await readWhole(db, studioId)
  if (!whole) throw new Refusal('not-found', 'There is no such studio.')
  return writeStudioFile({ format: STUDIO_FORMAT, version: STUDIO_VERSION, asOf: at, ...whole })
}
