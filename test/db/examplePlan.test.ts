import { expect, test } from 'vitest'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { minuteOf } from '#app/studio/wireTime.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'

// The clock change of spring is in its week.
test('the example can be made: 95 of 100 pieces and more are on time', () => {
  const { entries, asOf, format: _format, version: _version, ...tables } = exampleStudioFile('2026-03-24')
  const request = { nowMin: minuteOf(asOf), logPosition: entries.length, seed: 1, effort: 0, basePlan: null }
  const planningCase = planningCaseOf(tables, entries, request)
  const plan = makePlan(planningCase)
  expect(checkPlan(planningCase, plan)).toEqual([])
  const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0)
  const wanted = sum(plan.promises.map((promise) => promise.wanted))
  expect(wanted).toBeGreaterThan(100)
  expect(sum(plan.promises.map((promise) => promise.onTime))).toBeGreaterThanOrEqual(0.95 * wanted)
})
