import type { Db } from '#store/db.ts'
import { listStudios, type StudioLine } from '#store/studios.ts'
import { Refusal } from '../refusal.ts'

/**
 * The studio of this installation. Before there are accounts there is one.
 * @throws Refusal `not-found` before it was begun
 */
export async function onlyStudio(db: Db): Promise<StudioLine> {
  const [studio] = await listStudios(db)
  if (!studio)
    throw new Refusal('not-found', 'There is no studio here yet: begin one, import one, or load the example.')
  return studio
}
