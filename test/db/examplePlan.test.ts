import { expect, test } from 'vitest'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { minuteOf } from '#app/studio/wireTime.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'

// The clock change of spring; a kiln that waits for company until an odd minute; an evening with full racks.
test.each([
  ['2026-03-24', undefined],
  ['2026-07-14', '2026-07-14T07:00:00.000Z'],
  ['2026-03-02', '2026-03-02T17:20:00.000Z'],
])('all of the example is on time in its first plan (%s)', (today, at) => {
  const { entries, asOf, format: _format, version: _version, ...tables } = exampleStudioFile(today)
  const request = { nowMin: minuteOf(at ?? asOf), logPosition: entries.length, seed: 1, effort: 0, basePlan: null }
  const planningCase = planningCaseOf(tables, entries, request)
  const plan = makePlan(planningCase)
  expect(checkPlan(planningCase, plan)).toEqual([])
  const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0)
  const wanted = sum(plan.promises.map((promise) => promise.wanted))
  expect(wanted).toBeGreaterThan(100)
  expect(sum(plan.promises.map((promise) => promise.onTime))).toBe(wanted)
})

test('ware that can keep its date is not fired with ware that comes too late', () => {
  // The first order is long overdue, for its plates are not on the shelf; the soap dishes are to be fired in time.
  const file = exampleStudioFile('2026-03-02')
  const orders = file.orders.filter(({ kind }) => kind !== 'stock').slice(0, 4)
  const request = { nowMin: minuteOf(file.asOf), logPosition: file.entries.length, seed: 1, effort: 0, basePlan: null }
  const { promises } = makePlan(planningCaseOf({ ...file, orders, stock: [] }, file.entries, request))
  const late = promises.filter(({ wanted, onTime }) => onTime < wanted)
  expect(late.map(({ orderId }) => orderId)).toEqual([orders[0]!.id])
})
