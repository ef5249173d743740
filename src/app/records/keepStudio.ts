import type { StudioRecord } from '#contract/studio.ts'
import type { Db } from '#store/db.ts'
import { findStudio, listStudios, upsertStudio } from '#store/studios.ts'
import { noteEdit } from '../log/noteEdit.ts'
import { Refusal } from '../refusal.ts'

/**
 * Begins the studio, or changes its name, zone, covers and the rules of the house.
 * @param at the moment, UTC
 * @throws Refusal `conflict` if there is a studio with another id: one installation holds one
 */
export function keepStudio(db: Db, studio: StudioRecord, at: string): Promise<'added' | 'changed'> {
  return db.transaction(async (db) => {
    const isNew = (await findStudio(db, studio.id)) === undefined
    const [other] = isNew ? await listStudios(db) : []
    if (other) throw new Refusal('conflict', `There is a studio here already: “${other.name}”.`)
    await upsertStudio(db, studio)
    await noteEdit(db, studio.id, `${isNew ? 'began' : 'changed'} the studio “${studio.name}”`, at)
    return isNew ? 'added' : 'changed'
  })
}
