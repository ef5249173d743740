import { count, eq, max, sql } from 'drizzle-orm'
import { logEntries, studios } from '#db/schema/index.ts'
import type { Db } from './db.ts'

/** Entries that were there are no longer: better to stop and restore a backup than to plan from half a logbook. */
export class BrokenLogbook extends Error {
  override readonly name = 'BrokenLogbook'

  constructor(studioName: string, missingCount: number) {
    super(
      `The logbook of “${studioName}” lacks ${missingCount} entries that it had. Restore the newest backup: \`restore\` lists them.`,
    )
  }
}

/**
 * Positions run from 1 to the studio's newest without a gap; looked at whenever the database is opened.
 * @throws BrokenLogbook if they do not
 */
export async function checkLogbooks(db: Db): Promise<void> {
  const found = await db
    .select({
      name: studios.name,
      expected: sql<number>`greatest(${studios.logPosition}, coalesce(${max(logEntries.position)}, 0))`.mapWith(Number),
      present: count(logEntries.id),
    })
    .from(studios)
    .leftJoin(logEntries, eq(logEntries.studioId, studios.id))
    .groupBy(studios.id)
  const broken = found.find(({ expected, present }) => expected !== present)
  if (broken) throw new BrokenLogbook(broken.name, broken.expected - broken.present)
}
