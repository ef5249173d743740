import { checkSchedule, costsOf } from '../../src/core/planning/search/check.ts'
import type { Problem } from '../../src/core/planning/search/problem.ts'
import { solve } from '../../src/core/planning/search/solve.ts'
import { seededRng, type Rng } from '../../src/core/rng.ts'
import { drawWorkshop } from '../support/drawWorkshop.ts'
import { leastCostsByProgram } from '../support/leastCostsByProgram.ts'
import { drawKilnProblem, drawSmallProblem } from '../support/smallProblems.ts'

const draws: readonly ((rng: Rng) => Problem)[] = [drawWorkshop, drawSmallProblem, drawWorkshop, drawKilnProblem]

/** Random problems: the search must say what a general solver for integer programmes says, at every level of cost. */
export function run(cases: number, seed: number): { failures: number; report: string } {
  const failures: string[] = []
  let infeasible = 0
  for (let i = 0; i < cases; i++) {
    const problem = draws[i % draws.length]!(seededRng(seed * 1_000_003 + i))
    const expected = leastCostsByProgram(problem)
    const { status, plan, costs } = solve(problem, { seed, conflicts: 200_000 })
    if (!expected) infeasible++
    const isRight = expected
      ? status === 'optimal' &&
        same(costs, expected) &&
        same(costsOf(problem, plan!), expected) &&
        checkSchedule(problem, plan!).length === 0
      : status === 'infeasible'
    if (!isRight)
      failures.push(`case ${i}: ${status} ${costs.join(' ')} instead of ${expected?.join(' ') ?? 'infeasible'}`)
  }
  const report = [
    `${cases} problems, ${infeasible} of them infeasible, ${failures.length} disagreements`,
    ...failures.slice(0, 10),
  ]
  return { failures: failures.length, report: report.join('\n') }
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)
