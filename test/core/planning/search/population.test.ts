import { describe, expect, test } from 'vitest'
import { checkSchedule, costsOf } from '#core/planning/search/check.ts'
import { indexProblem } from '#core/planning/search/indexed.ts'
import { createDecoder } from '#core/planning/search/population/decode.ts'
import { createPopulation } from '#core/planning/search/population/evolve.ts'
import { projectOf } from '#core/planning/search/population/project.ts'
import { createSampler } from '#core/planning/search/population/sample.ts'
import type { Problem } from '#core/planning/search/problem.ts'
import { toPlan } from '#core/planning/search/schedule.ts'
import { solve } from '#core/planning/search/solve.ts'
import { seededRng } from '#core/rng.ts'
import { drawPlainProject } from '../../../support/smallProblems.ts'

/** The plan that starts, in units of the project, stand for. */
function planOf(problem: Problem, start: Int32Array, unitMin: number) {
  const count = problem.tasks.length
  return toPlan(indexProblem(problem), {
    start: start.map((unit) => unit * unitMin),
    mode: new Int32Array(count),
    slot: new Int32Array(count).fill(-1),
    costs: [],
  })
}

describe('orders of tasks', () => {
  test('become schedules that break nothing, and justifying them never makes them longer', () => {
    for (let seed = 0; seed < 40; seed++) {
      const problem = drawPlainProject(seededRng(seed))
      const project = projectOf(indexProblem(problem))!
      const { place, justify } = createDecoder(project)
      const start = new Int32Array(project.taskCount)
      const makespan = place(createSampler(project, seededRng(seed))(), start)
      expect(checkSchedule(problem, planOf(problem, start, project.unitMin))).toEqual([])
      const justified = justify(start, makespan)
      const plan = planOf(problem, start, project.unitMin)
      expect(checkSchedule(problem, plan)).toEqual([])
      expect(costsOf(problem, plan)).toEqual([justified * project.unitMin])
      expect(justified).toBeLessThanOrEqual(makespan)
    }
  })

  test('are bred to the proved optimum of small projects, and never under it', () => {
    for (let seed = 0; seed < 20; seed++) {
      const problem = drawPlainProject(seededRng(seed))
      const { status, costs } = solve(problem, { seed: 1, conflicts: 20_000 })
      expect(status).toBe('optimal')
      const project = projectOf(indexProblem(problem))!
      const { generation } = createPopulation(project, seededRng(seed))
      let best = generation()
      for (let i = 0; i < 10; i++) best = generation()
      expect(best.makespan * project.unitMin).toBe(costs[0])
    }
  })
})

describe('a problem is a plain project', () => {
  const plain = drawPlainProject(seededRng(1))

  test('in the unit that all its durations and lags are multiples of', () => {
    expect(projectOf(indexProblem(plain))).toMatchObject({ unitMin: 15, unitCost: 15 })
  })

  test.each<[string, Partial<Problem>]>([
    ['deadlines', { lags: [{ from: 'origin', to: { taskId: 't1', at: 'end' }, maximumMin: 900, reason: reason() }] }],
    [
      'maximum lags',
      {
        lags: [
          { from: { taskId: 't0', at: 'end' }, to: { taskId: 't1', at: 'start' }, maximumMin: 60, reason: reason() },
        ],
      },
    ],
    ['other costs', { costs: [{ name: 'late', terms: [{ kind: 'late', taskId: 't1', dueMin: 60, cost: 1 }] }] }],
    ['no time for one after another', { horizon: { startMin: 0, endMin: 120 } }],
  ])('not with %s', (_, change) => {
    expect(projectOf(indexProblem({ ...plain, ...change }))).toBeUndefined()
  })
})

function reason() {
  return { code: 'drawn', params: {} }
}
