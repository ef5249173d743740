import type { StudioTables } from '#contract/studioFields.ts'
import type { EntryRecord } from '#contract/entry.ts'
import type { PlanningCase } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Db } from '#store/db.ts'
import { entriesUpTo, logPositionOf } from '#store/logEntries.ts'
import { latestPlan, planById } from '#store/plans.ts'
import { atOneMoment } from '#store/snapshot.ts'
import { readStudioTables } from '#store/studios.ts'
import { Refusal } from '../refusal.ts'
import { planningCaseOf } from '../studio/planningCaseOf.ts'
import type { SeriesStart } from './planQueue.ts'

/** Ware that stood in air of longer ago is fired by now. */
const AIR_DAYS = 120

/** One seed for every plan of a studio: what differs between two plans is then what happened, not chance. */
const SEED = 1

/**
 * All that the next plan is made from, as it is at one moment.
 * @param start of the series of plans this one belongs to; undefined: it begins one, at `nowMin`, from the newest plan
 * @throws Refusal `not-found`
 */
export async function loadCase(
  db: Db,
  studioId: string,
  effort: number,
  nowMin: Minute,
  start?: SeriesStart,
): Promise<PlanningCase> {
  const { tables, entries, logPosition } = await studioAt(db, studioId, nowMin)
  const basePlan = start ? await basePlanOf(db, studioId, start) : await latestPlan(db, studioId)
  return planningCaseOf(tables, entries, {
    nowMin: start?.nowMin ?? nowMin,
    logPosition,
    seed: SEED,
    effort,
    basePlan: basePlan ?? null,
  })
}

export type StudioAt = {
  readonly tables: StudioTables
  readonly entries: readonly EntryRecord[]
  readonly logPosition: number
}

/**
 * The studio with its whole logbook, both as they are at one moment.
 * @throws Refusal `not-found`
 */
export function studioAt(db: Db, studioId: string, nowMin: Minute): Promise<StudioAt> {
  return atOneMoment(db, async (db) => {
    const airFrom = new Date((nowMin - AIR_DAYS * MIN_PER_DAY) * 60_000).toISOString()
    const tables = await readStudioTables(db, studioId, airFrom)
    const logPosition = await logPositionOf(db, studioId)
    if (!tables || logPosition === undefined) throw new Refusal('not-found', 'There is no such studio.')
    return { tables, entries: await entriesUpTo(db, studioId, logPosition), logPosition }
  })
}

async function basePlanOf(db: Db, studioId: string, { basePlanId }: SeriesStart) {
  return basePlanId === null ? undefined : planById(db, studioId, basePlanId)
}
