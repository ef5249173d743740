import type { SupposedChange } from '#contract/whatIf.ts'
import type { Costs, OrderPromise, Plan } from '#core/planning/plan.ts'
import { type PlanDifference, planDifference } from '#core/planning/planDifference.ts'
import type { Minute } from '#core/time.ts'
import type { Db } from '#store/db.ts'
import type { Planner } from '../plan/planner.ts'
import { suppose } from './suppose.ts'
import { openTrial } from './tryOut.ts'

export type WhatIf = {
  /** As it would be. */
  readonly plan: Plan
  /** Order lines of which something else can be promised; null: the line is not there. */
  readonly promises: readonly { readonly before: OrderPromise | null; readonly after: OrderPromise | null }[]
  /** Steps that would be done at another time, by another maker, or not at all. */
  readonly steps: Pick<PlanDifference, 'moved' | 'gone' | 'added'>
  readonly costs: { readonly before: Costs; readonly after: Costs }
}

/**
 * What would come of it; nothing is changed. Before and after are made with the same little effort, so that what differs
 * is the change's doing.
 * @throws Refusal as `Trial.planOf`
 */
export async function whatIf(
  db: Db,
  planner: Planner,
  studioId: string,
  nowMin: Minute,
  changes: readonly SupposedChange[],
): Promise<WhatIf> {
  const { studio, planOf } = await openTrial(db, planner, studioId, nowMin)
  const after = await planOf(suppose(studio, changes))
  const before = await planOf(studio)
  const { moved, gone, added } = planDifference(before, after)
  return {
    plan: after,
    steps: { moved, gone, added },
    promises: differingPromises(before, after),
    costs: { before: before.costs, after: after.costs },
  }
}

function differingPromises(before: Plan, after: Plan): WhatIf['promises'] {
  const lineIds = new Set([...before.promises, ...after.promises].map(keyOf))
  const of = (plan: Plan) => new Map(plan.promises.map((promise) => [keyOf(promise), promise]))
  const [old, supposed] = [of(before), of(after)]
  return [...lineIds]
    .map((key) => ({ before: old.get(key) ?? null, after: supposed.get(key) ?? null }))
    .filter((pair) => JSON.stringify(pair.before) !== JSON.stringify(pair.after))
}

const keyOf = ({ orderId, orderLineId }: OrderPromise): string => JSON.stringify([orderId, orderLineId])
