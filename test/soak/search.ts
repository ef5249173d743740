import { checkSchedule, costsOf } from '../../src/core/planning/search/check.ts'
import { solve } from '../../src/core/planning/search/solve.ts'
import { seededRng } from '../../src/core/rng.ts'
import { drawKilnProblem, drawSmallProblem, leastCostsByTrial } from '../support/smallProblems.ts'

/** Small random problems: the search must say what trying every plan says, and its plan must stand the check. */
export function run(cases: number, seed: number): { failures: number; report: string } {
  const failures: string[] = []
  let infeasible = 0
  for (let i = 0; i < cases; i++) {
    const draw = i % 10 === 9 ? drawKilnProblem : drawSmallProblem
    const problem = draw(seededRng(seed * 1_000_003 + i))
    const expected = leastCostsByTrial(problem)
    const { status, plan, costs } = solve(problem, { seed, conflicts: 100_000 })
    if (!expected) infeasible++
    const isRight = expected
      ? status === 'optimal' &&
        same(costs, expected) &&
        same(costsOf(problem, plan!), expected) &&
        checkSchedule(problem, plan!).length === 0
      : status === 'infeasible'
    if (!isRight)
      failures.push(
        `case ${i}: ${status} ${JSON.stringify(costs)} instead of ${expected ? JSON.stringify(expected) : 'infeasible'}`,
      )
  }
  const report = [
    `${cases} problems, ${infeasible} of them infeasible, ${failures.length} disagreements`,
    ...failures.slice(0, 10),
  ]
  return { failures: failures.length, report: report.join('\n') }
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)
