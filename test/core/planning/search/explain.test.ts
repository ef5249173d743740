import { expect, test } from 'vitest'
import { explain } from '#core/planning/search/explain/explain.ts'
import type { Lag, Problem } from '#core/planning/search/problem.ts'
import { solve } from '#core/planning/search/solve.ts'
import { seededRng } from '#core/rng.ts'
import { leastCostsByProgram } from '../../../support/leastCostsByProgram.ts'
import { drawTightProject } from '../../../support/smallProblems.ts'

const reason = { code: 'drawn', params: {} }

/** Seven tasks of a tight project, to be done a minute sooner than they can; any deadline or lag may be given up. */
function drawImpossible(seed: number): Problem {
  const drawn = firstTasks(7, drawTightProject(seededRng(seed)))
  const { status, costs } = solve(drawn, { seed: 1, conflicts: 10_000 })
  expect(status).toBe('optimal')
  const deadlines = drawn.tasks.map(({ id }): Lag => ({
    from: 'origin',
    to: { taskId: id, at: 'end' },
    maximumMin: costs[0]! - 1,
    reason,
  }))
  const lags = [...deadlines, ...drawn.lags].map((lag, i) => ({ ...lag, assumptionId: `lag ${i}` }))
  return {
    ...drawn,
    horizon: { startMin: 0, endMin: costs[0]! + 1 },
    lags,
    assumptions: lags.map(({ assumptionId }) => ({ id: assumptionId, reason, price: 1 })),
  }
}

function firstTasks(count: number, { tasks, lags, ...rest }: Problem): Problem {
  const kept = new Set(tasks.slice(0, count).map(({ id }) => id))
  const isAmong = (point: Lag['from']) => point !== 'origin' && kept.has(point.taskId)
  return { ...rest, tasks: tasks.slice(0, count), lags: lags.filter(({ from, to }) => isAmong(from) && isAmong(to)) }
}

/** Costs would only keep the general solver busy. */
const keepingOnly = (problem: Problem, ids: readonly string[]): Problem => ({
  ...problem,
  lags: problem.lags.filter(({ assumptionId }) => ids.includes(assumptionId!)),
  costs: [{ name: 'nothing', terms: [] }],
})

test('a general solver finds every conflict impossible, and possible without any of its members (HiGHS, Huangfu & Hall 2018)', () => {
  const sizes = new Set<number>()
  for (let seed = 1; seed <= 8; seed++) {
    const problem = drawImpossible(seed)
    const explanation = explain(problem, { seed, conflicts: 10_000 })
    if (explanation.kind !== 'conflict') throw new RangeError(`seed ${seed} is explained as ${explanation.kind}`)
    const { assumptionIds, isMinimal } = explanation
    expect(isMinimal).toBe(true)
    expect(leastCostsByProgram(keepingOnly(problem, assumptionIds))).toBeUndefined()
    for (const member of assumptionIds) {
      const others = assumptionIds.filter((id) => id !== member)
      expect(leastCostsByProgram(keepingOnly(problem, others)), `seed ${seed} without ${member}`).toBeDefined()
    }
    sizes.add(assumptionIds.length)
  }
  expect(sizes.size).toBeGreaterThan(2)
}, 120_000)
