import { referenceFaults } from '#contract/references.ts'
import type { Plan } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Db } from '#store/db.ts'
import { latestPlan } from '#store/plans.ts'
import { type StudioAt, studioAt } from '../plan/loadCase.ts'
import type { Planner } from '../plan/planner.ts'
import { fileOf } from '../records/wholeFile.ts'
import { Refusal } from '../refusal.ts'
import { planningCaseOf } from '../studio/planningCaseOf.ts'

/** Answers are compared with one another, so all are made with the same effort; this one answers within seconds. */
const EFFORT = 0
const SEED = 1

export type Trial = {
  readonly studio: StudioAt
  /**
   * The plan that would be made of `studio`, which may be another than the real one.
   * @throws Refusal `invalid` if something in it names what is not there, `conflict` if no sound plan came out in time
   */
  readonly planOf: (studio: StudioAt, soonOrderIds?: readonly string[]) => Promise<Plan>
}

/** Plans that are made for an answer and kept nowhere, all from the same moment and the same base. */
export async function openTrial(db: Db, planner: Planner, studioId: string, nowMin: Minute): Promise<Trial> {
  const studio = await studioAt(db, studioId, nowMin)
  const basePlan = (await latestPlan(db, studioId)) ?? null
  const planOf: Trial['planOf'] = async ({ tables, entries, logPosition }, soonOrderIds = []) => {
    const [fault] = referenceFaults(fileOf(tables, new Date(nowMin * 60_000).toISOString()))
    if (fault) throw new Refusal('invalid', `${fault.message}.`)
    const request = { nowMin, logPosition, seed: SEED, effort: EFFORT, basePlan }
    const outcome = await planner.tryOut({ ...planningCaseOf(tables, entries, request), soonOrderIds, isTrial: true })
    if (outcome.kind === 'fault') throw new Error(outcome.error)
    if (outcome.kind === 'abandoned')
      throw new Refusal('conflict', 'It took too long to work that out. Ask again in a while.')
    const [breach] = outcome.breaches
    if (breach) throw new Refusal('conflict', `No sound plan came out of it (${breach.check}), so there is no answer.`)
    return outcome.plan
  }
  return { studio, planOf }
}
