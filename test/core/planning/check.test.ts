import { describe, expect, test } from 'vitest'
import { checkPlan, checks } from '#core/planning/check/checkPlan.ts'
import type { Plan, PlannedRun } from '#core/planning/plan.ts'
import { aStep } from '../../support/designBuilders.ts'
import { anEntry } from '../../support/entryBuilders.ts'
import { handCase, handPlan } from '../../support/handPlan.ts'
import { aSpot, at } from '../../support/studioBuilders.ts'
import { planted } from './plantedBreaches.ts'

const { studio } = handCase
const tray = studio.designs[0]!

test('a legal plan has no breach', () => {
  expect(checkPlan(handCase, handPlan)).toEqual([])
})

describe('a planted breach is caught by its own check:', () => {
  test.each(planted)('%s: %s', (check, _what, { plan: spoiltPlan = handPlan, planningCase = handCase }) => {
    const found = checkPlan(planningCase, spoiltPlan)
    expect(found.map((breach) => breach.check)).toContain(check)
  })

  test('every check has one', () => {
    const names = checks.map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
    expect([...new Set(planted.map(([check]) => check))].toSorted()).toEqual(names.toSorted())
  })
})

describe('what the logbook has is no fault of a plan:', () => {
  test('a rack that already stands too full', () => {
    const spots = [aSpot({ ...studio.spots[0]!, boardCount: 1 })]
    const onlySealed: Plan = {
      ...handPlan,
      tasks: [],
      kilnTasks: [],
      firings: [],
      runs: handPlan.runs.slice(1),
      promises: [{ ...handPlan.promises[0]!, onTime: 0 }],
      leftOut: [
        { orderId: 'order', orderLineId: 'line', runId: null, designId: 'tray', count: 2, reasons: [], remedies: [] },
      ],
    }
    const crowd = anEntry('cut', at(-1, 11), {
      runId: 'crowd',
      designId: 'tray',
      count: 6,
      cover: 'sealed',
      spotId: 'rack',
    })
    const crowded: PlannedRun = {
      ...handPlan.runs[1]!,
      id: 'crowd',
      count: 6,
      cutMin: at(-1, 11),
      waits: [{ fromMin: at(-1, 11), cover: 'sealed', spotId: 'rack' }],
      boards: [{ ...handPlan.runs[1]!.boards[0]!, boardCount: 2 }],
    }
    const planningCase = { ...handCase, entries: [...handCase.entries, crowd], studio: { ...studio, spots } }
    expect(checkPlan(planningCase, { ...onlySealed, runs: [...onlySealed.runs, crowded] })).toEqual([])
  })
})

test('a step whose band does not matter takes no window', () => {
  const steps = tray.steps.map((step) => (step.id === 'join' ? aStep({ ...step, band: null }) : step))
  const spoilt: Plan = { ...handPlan, tasks: handPlan.tasks.map((task) => ({ ...task, window: null })) }
  expect(checkPlan({ ...handCase, studio: { ...studio, designs: [{ ...tray, steps }] } }, spoilt)).toEqual([])
})
