/** Random studios, logs and late days: every plan is legal, none crashes, and the same case gives the same plan. */
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { Plan, PlanningCase } from '#core/planning/plan.ts'
import { seededRng } from '#core/rng.ts'
import { aRandomCase, laterCase } from '../support/randomCase.ts'

const MOST_SHOWN = 12

export function run(cases: number, seed: number): { failures: number; report: string } {
  const problems: string[] = []
  const pieces = { wanted: 0, onTime: 0 }
  for (let number = 0; number < cases; number++) problems.push(...problemsOf(number, seed, pieces))
  const shown = problems.slice(0, MOST_SHOWN).join('\n')
  return { failures: problems.length, report: `${shown}\n${pieces.onTime} of ${pieces.wanted} pieces on time` }
}

function problemsOf(number: number, seed: number, pieces: { wanted: number; onTime: number }): string[] {
  const rng = seededRng(seed * 1_000_003 + number)
  try {
    const first = aRandomCase(rng)
    const plan = makePlan(first)
    for (const { wanted, onTime } of plan.promises) {
      pieces.wanted += wanted
      pieces.onTime += onTime
    }
    const again = number % 10 > 0 || JSON.stringify(makePlan(first)) === JSON.stringify(plan)
    const later = laterCase(rng, first, plan)
    return [
      ...breachesOf(first, plan, `case ${number}`),
      ...(again ? [] : [`case ${number}: not the same plan twice`]),
      ...breachesOf(later, makePlan(later), `case ${number}, later`),
    ]
  } catch (error) {
    return [`case ${number}: ${(error as Error).stack?.split('\n').slice(0, 4).join(' | ')}`]
  }
}

const breachesOf = (planningCase: PlanningCase, plan: Plan, name: string): string[] =>
  checkPlan(planningCase, plan).map((breach) => `${name}: ${JSON.stringify(breach)}`)
