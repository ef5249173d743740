import { expect, test } from 'vitest'
import { beginStudio } from '#app/studio/beginStudio.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { minuteOf } from '#app/studio/wireTime.ts'
import { beginning, glazeCones } from '#contract/beginning.ts'
import { studioFile } from '#contract/studioFile.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import { builds } from '#core/studio/plainDesign.ts'
import { kilnSizes } from '#core/studio/usualKilns.ts'
import { firstAnswers } from '../../support/firstAnswers.ts'

const now = '2026-03-02T08:00:00.000Z'

const cases = builds.flatMap((build, b) =>
  kilnSizes.map((kiln, k) => [build, kiln, glazeCones[(b + k) % glazeCones.length]!] as const),
)

test.each(cases)('a %s in a %s kiln at cone %s is planned in time', (build, kiln, glazeCone) => {
  const file = beginStudio({ ...firstAnswers, kiln, glazeCone, piece: { ...firstAnswers.piece, build } }, now)
  expect(studioFile.safeParse(file).error).toBeUndefined()
  const { entries, asOf, format: _format, version: _version, ...tables } = file
  const request = { nowMin: minuteOf(asOf), logPosition: 0, seed: 1, effort: 0, basePlan: null }
  const planningCase = planningCaseOf(tables, entries, request)
  const plan = makePlan(planningCase)
  expect(checkPlan(planningCase, plan)).toEqual([])
  expect(plan.promises).toMatchObject([{ wanted: 4, onTime: 4 }])
})

test('what cannot be asked so is said in place', () => {
  const wrong = { ...firstAnswers, making: { from: '13:00', to: '09:00' }, order: { ...firstAnswers.order, count: 0 } }
  const faults = beginning.safeParse(wrong).error!.issues
  expect(faults.map(({ path }) => path.join('.'))).toEqual(['making.to', 'order.count'])
})
