import type { StudioFile } from '#contract/studioFields.ts'
import type { Db } from '#store/db.ts'
import { listStudios, removeStudio, replaceStudio } from '#store/studios.ts'
import { Refusal } from '../refusal.ts'

/**
 * Puts a whole studio from its file into the database.
 * @param mayReplace whether the studio that is there may go
 * @throws Refusal `conflict` if there is one and it may not
 */
export function importStudio(db: Db, file: StudioFile, mayReplace: boolean): Promise<void> {
  const { format: _, version: _version, asOf: _asOf, ...whole } = file
  return db.transaction(async (db) => {
    const present = await listStudios(db)
    if (present[0] && !mayReplace) {
      throw new Refusal(
        'conflict',
        `There is a studio here already: “${present[0].name}”. Export it first, then say that it may be replaced.`,
      )
    }
    for (const { id } of present) if (id !== whole.studio.id) await removeStudio(db, id)
    await replaceStudio(db, whole)
  })
}
