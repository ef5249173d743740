/** Random cases, and each again some hours later with the first plan seen: every plan that is made passes every check. */
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { PlanningCase } from '#core/planning/plan.ts'
import { seededRng } from '#core/rng.ts'
import { aRandomCase, laterCase } from '../support/randomCase.ts'

export function run(cases: number, seed: number): { failures: number; report: string } {
  const failed: string[] = []
  for (let number = 0; number < cases; number++) {
    const rng = seededRng(seed * 1_000_003 + number)
    const planned = (what: string, planningCase: PlanningCase) => {
      const plan = makePlan(planningCase)
      for (const breach of checkPlan(planningCase, plan)) failed.push(`${what} ${number}: ${JSON.stringify(breach)}`)
      return plan
    }
    const first = aRandomCase(rng)
    planned('later', laterCase(rng, first, planned('case', first)))
  }
  return { failures: failed.length, report: `${cases} cases, planned twice\n${failed.slice(0, 20).join('\n')}` }
}
