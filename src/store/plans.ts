/** Plans as they were made. None is ever changed. */
import { and, desc, eq, lte, max } from 'drizzle-orm'
import { plans, studios } from '#db/schema/index.ts'
import type { Plan } from '#core/planning/plan.ts'
import type { Db } from './db.ts'

export type PlanLine = { readonly id: string; readonly logPosition: number; readonly madeAt: string }

/** Saves a plan as the studio's newest. 'known': a plan with its id is there already, and stays as it is. */
export function insertPlan(db: Db, studioId: string, plan: Plan): Promise<'saved' | 'known' | 'no-such-studio'> {
  return db.transaction(async (db) => {
    const [studio] = await db.select({ id: studios.id }).from(studios).where(eq(studios.id, studioId)).for('update')
    if (!studio) return 'no-such-studio'
    const [newest] = await db
      .select({ number: max(plans.number) })
      .from(plans)
      .where(eq(plans.studioId, studioId))
    const { id, input } = plan
    const saved = await db
      .insert(plans)
      .values({ studioId, id, input, plan, logPosition: input.logPosition, number: (newest?.number ?? 0) + 1 })
      .onConflictDoNothing()
      .returning({ id: plans.id })
    return saved.length > 0 ? 'saved' : 'known'
  })
}

/** The plan saved last; undefined if there is none yet. */
export async function latestPlan(db: Db, studioId: string): Promise<Plan | undefined> {
  const [newest] = await db
    .select({ plan: plans.plan })
    .from(plans)
    .where(eq(plans.studioId, studioId))
    .orderBy(desc(plans.number))
    .limit(1)
  return newest?.plan
}

export async function planById(db: Db, studioId: string, planId: string): Promise<Plan | undefined> {
  const [found] = await db
    .select({ plan: plans.plan })
    .from(plans)
    .where(and(eq(plans.studioId, studioId), eq(plans.id, planId)))
  return found?.plan
}

/** Newest first. */
export function listPlans(db: Db, studioId: string, atMost: number): Promise<readonly PlanLine[]> {
  return db
    .select({ id: plans.id, logPosition: plans.logPosition, madeAt: plans.madeAt })
    .from(plans)
    .where(eq(plans.studioId, studioId))
    .orderBy(desc(plans.number))
    .limit(atMost)
}

/** Keeps the newest `keptCount` plans; what happened is the logbook's, so nothing is lost that cannot be made again. */
export async function removeOldPlans(db: Db, studioId: string, keptCount: number): Promise<void> {
  const [firstToGo] = await db
    .select({ number: plans.number })
    .from(plans)
    .where(eq(plans.studioId, studioId))
    .orderBy(desc(plans.number))
    .offset(keptCount)
    .limit(1)
  if (firstToGo) await db.delete(plans).where(and(eq(plans.studioId, studioId), lte(plans.number, firstToGo.number)))
}
