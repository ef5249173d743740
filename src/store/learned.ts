/** What the logbook has taught: made anew from it at any time. */
import { eq } from 'drizzle-orm'
import { learned } from '#db/schema/index.ts'
import { chunksOf } from './chunks.ts'
import type { Db } from './db.ts'

export type LearnedValue = Omit<typeof learned.$inferSelect, 'studioId'>

export const readLearned = async (db: Db, studioId: string): Promise<readonly LearnedValue[]> => {
  const { parameter, subject, value, spread, spreadKind, observationCount, logPosition } = learned
  return db
    .select({ parameter, subject, value, spread, spreadKind, observationCount, logPosition })
    .from(learned)
    .where(eq(learned.studioId, studioId))
    .orderBy(parameter, subject)
}

/** Puts all that is known now in the place of what was known before. */
export async function replaceLearned(db: Db, studioId: string, values: readonly LearnedValue[]): Promise<void> {
  await db.transaction(async (db) => {
    await db.delete(learned).where(eq(learned.studioId, studioId))
    for (const chunk of chunksOf(values, 8))
      await db.insert(learned).values(chunk.map((value) => ({ ...value, studioId })))
  })
}
