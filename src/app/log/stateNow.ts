import { logStateOf } from '#core/logbook/fold.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { Db } from '#store/db.ts'
import { entriesUpTo, logPositionOf } from '#store/logEntries.ts'
import { selectRecords } from '#store/records.ts'
import { atOneMoment } from '#store/snapshot.ts'
import { Refusal } from '../refusal.ts'
import { toEntries } from '../studio/toEntries.ts'

export type StateNow = { readonly logPosition: number; readonly state: LogState }

/**
 * What the logbook says stands where, and the position up to which it was read.
 * @throws Refusal `not-found`
 */
export function stateNow(db: Db, studioId: string): Promise<StateNow> {
  return atOneMoment(db, async (db) => {
    const logPosition = await logPositionOf(db, studioId)
    if (logPosition === undefined) throw new Refusal('not-found', 'There is no such studio.')
    const designs = await selectRecords(db, studioId, 'designs')
    const stock = await selectRecords(db, studioId, 'stock')
    const entries = await entriesUpTo(db, studioId, logPosition)
    return { logPosition, state: logStateOf({ designs, stock }, toEntries(entries)) }
  })
}
