import { describe, expect, test } from 'vitest'
import { checkSchedule, costsOf } from '#core/planning/search/check.ts'
import { createArranger } from '#core/planning/search/firings/arrange.ts'
import { firstIn, spansToStart } from '#core/planning/search/firings/spans.ts'
import { indexProblem } from '#core/planning/search/indexed.ts'
import { isBetter, toPlan } from '#core/planning/search/schedule.ts'
import type { PackingOracle, Problem } from '#core/planning/search/problem.ts'
import { solve } from '#core/planning/search/solve.ts'
import { keptFrom } from '#core/planning/search/warm.ts'
import { seededRng } from '#core/rng.ts'
import { ovenObjective } from '../../../../scripts/bench/checkOvens.ts'
import { ovenProblem } from '../../../../scripts/bench/ovenProblem.ts'
import { readOvens } from '../../../../scripts/bench/readOvens.ts'
import { drawWorkshop } from '../../../support/drawWorkshop.ts'

const never = () => false

/** Any plan of the problem, as bad as may be. */
function anyPlan(problem: Problem, seed: number) {
  const indexed = indexProblem(problem)
  const { plan } = solve({ ...problem, costs: [{ name: 'none', terms: [] }] }, { seed, conflicts: 2000 })
  return { indexed, schedule: plan && keptFrom(indexed, plan) }
}

describe('firings rearranged, the rest held', () => {
  test('no plan of 60 workshops is broken or said to cost other than it does', () => {
    let improved = 0
    for (let i = 0; i < 60; i++) {
      const problem = drawWorkshop(seededRng(4000 + i))
      const { indexed, schedule } = anyPlan(problem, i)
      if (!schedule) continue
      const { next } = createArranger(indexed, undefined, never, seededRng(i)).step(schedule)
      if (!next) continue
      improved++
      expect(isBetter(next.costs, schedule.costs)).toBe(true)
      const plan = toPlan(indexed, next)
      expect(checkSchedule(problem, plan)).toEqual([])
      expect(costsOf(problem, plan)).toEqual(next.costs)
    }
    expect(improved).toBeGreaterThan(10)
  })

  test('what the oracle says does not fit is not put together', () => {
    const fits: PackingOracle = (_, memberIds) =>
      memberIds.length > 1 ? { outcome: 'impossible', memberIds } : { outcome: 'fits' }
    const problem = ovenProblem(readOvens(twoOvens))
    const packing = { oracle: fits, unproven: [] }
    const schedule = createArranger(indexProblem(problem), packing, never, seededRng(1)).first()!
    const used = schedule.slot.filter((slot) => slot >= 0)
    expect(new Set(used).size).toBe(used.length)
  })
})

test('a firing starts so that it and the set-up before it lie in one stretch of hours', () => {
  const hours = [
    { startMin: 0, endMin: 10 },
    { startMin: 10, endMin: 20 },
  ]
  // 4 minutes with 3 of set-up: from 3 to 6, and from 13 to 16.
  const spans = spansToStart(4, 3, undefined, hours, 30)
  expect([0, 3, 6, 7, 16, 17].map((minute) => firstIn(spans, minute))).toEqual([3, 3, 6, 13, 16, Infinity])
})

/** Three jobs of one family and one of another; only the second oven takes the last. */
const twoOvens = `l=30; a=2; m=2; s=2; n=4; setup_costs=[|0,5, |5,0, |0,0|]; setup_times=[|0,2, |2,0, |0,0|];
max_cap=[4,4]; initState=[1,1]; m_a_s=[|0,10, |0,10|]; m_a_e=[|10,20, |10,20|];
eligible_machine=[{1},{1},{1,2},{2}]; earliest_start=[0,0,1,0]; latest_end=[9,9,9,4]; min_time=[3,4,2,3];
max_time=[6,6,6,9]; size=[2,2,2,4]; attribute=[1,1,1,2]; mult_factor_total_runtime=1; mult_factor_finished_toolate=100;
mult_factor_total_setuptimes=0; mult_factor_total_setupcosts=1;`

test('two ovens by hand: jobs 1 and 2 share 4 minutes, 3 goes alone for 2, 4 waits for its set-up and is late', () => {
  // The last job is set up for 2 minutes and takes 3, so it is over at 5 and late. 4 + 2 + 3 + 100 + 5 = 114.
  const instance = readOvens(twoOvens)
  const { status, plan, costs } = solve(ovenProblem(instance), { seed: 1, conflicts: 20_000 })
  expect({ status, costs, objective: ovenObjective(instance, plan!) }).toEqual({
    status: 'optimal',
    costs: [114],
    objective: 114,
  })
})

test('the check of ovens sees a batch that runs past its shift', () => {
  const instance = readOvens(twoOvens)
  const { plan } = solve(ovenProblem(instance), { seed: 1, conflicts: 20_000 })
  const late = plan!.placed.map((placed) => ({ ...placed, startMin: placed.startMin + 7, endMin: placed.endMin + 7 }))
  expect(() => ovenObjective(instance, { placed: late, leftOutIds: [] })).toThrow('inside one shift')
})
