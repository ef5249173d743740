/** Plans for tests. */
import type { Costs, Plan } from '#core/planning/plan.ts'
import { aPlanInput } from './studioBuilders.ts'

const noCosts: Costs = {
  wareLost: 0,
  lateWeight: 0,
  changes: 0,
  firings: 0,
  energyKwh: 0,
  sessions: 0,
  thinWindows: 0,
  tightDates: 0,
  standingDays: 0,
}

/** A plan with nothing in it. */
export function aPlan(given: Partial<Plan> = {}): Plan {
  return {
    id: 'plan',
    input: aPlanInput(),
    tasks: [],
    kilnTasks: [],
    runs: [],
    firings: [],
    promises: [],
    leftOut: [],
    offers: [],
    costs: noCosts,
    ...given,
  }
}
