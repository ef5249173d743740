import { beforeAll, describe, expect, test } from 'vitest'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { Plan, PlanningCase } from '#core/planning/plan.ts'
import { planDifference } from '#core/planning/planDifference.ts'
import { exampleStudioFile } from '../../../db/seed/exampleStudio.ts'
import { run as soakPlans } from '../../soak/plans.ts'
import { aDesign } from '../../support/designBuilders.ts'
import { aKiln } from '../../support/kilnBuilders.ts'
import {
  aMaker,
  anOrder,
  anOrderLine,
  aPin,
  aPlanInput,
  aPlanningCase,
  aStudio,
  at,
  hoursOn,
} from '../../support/studioBuilders.ts'

const MORNING = Date.parse('2026-11-25T08:00:00Z') / 60_000

function exampleCase(given: Partial<Parameters<typeof planningCaseOf>[2]> = {}): PlanningCase {
  const file = exampleStudioFile('2026-11-25')
  return planningCaseOf(file, file.entries, {
    nowMin: MORNING,
    logPosition: file.entries.length,
    seed: 1,
    effort: 0,
    basePlan: null,
    ...given,
  })
}

describe('the example studio', () => {
  let planningCase: PlanningCase
  let plan: Plan
  beforeAll(() => {
    planningCase = exampleCase()
    plan = makePlan(planningCase)
  })

  test('is planned without a breach', () => {
    expect(checkPlan(planningCase, plan)).toEqual([])
  })

  test('has at least 95 % of what is ordered on time, and a reason for every piece that is left out', () => {
    const wanted = plan.promises.reduce((sum, promise) => sum + promise.wanted, 0)
    const onTime = plan.promises.reduce((sum, promise) => sum + promise.onTime, 0)
    expect(wanted).toBeGreaterThan(50)
    expect(onTime / wanted).toBeGreaterThanOrEqual(0.95)
    for (const { reasons } of plan.leftOut) expect(reasons.length).toBeGreaterThan(0)
  })

  test('says the last safe cuts within somebody’s making hours', () => {
    const cuts = plan.promises.flatMap(({ lastSafeCutMin }) => lastSafeCutMin ?? [])
    expect(cuts.length).toBeGreaterThan(3)
    const hours = planningCase.studio.makers.flatMap(({ makingHours }) => makingHours)
    for (const cut of cuts)
      expect(
        hours.some(({ startMin, endMin }) => startMin <= cut && cut <= endMin),
        `cut at ${cut}`,
      ).toBe(true)
  })

  test('is planned alike twice, byte for byte, whatever the order of the entries', () => {
    const shuffled = { ...planningCase, entries: planningCase.entries.toReversed() }
    expect(JSON.stringify(makePlan(shuffled))).toBe(JSON.stringify(plan))
  })

  test('stays put a little later when nothing has happened but what was planned', () => {
    const later = exampleCase({ nowMin: MORNING + 1, basePlan: plan })
    const again = makePlan(later)
    expect(checkPlan(later, again)).toEqual([])
    const held = (task: Plan['tasks'][number]) =>
      task.kind === 'step' &&
      task.glazeId === null &&
      task.startMin > MORNING + 60 &&
      task.startMin < later.holdUntilMin
    const shown = plan.tasks.filter(held).map(({ id, startMin }) => `${id} ${startMin}`)
    expect(shown.length).toBeGreaterThan(0)
    expect(again.tasks.filter(held).map(({ id, startMin }) => `${id} ${startMin}`)).toEqual(
      expect.arrayContaining(shown),
    )
  })

  test('is not made worse by rounds of improvement', () => {
    const better = makePlan(exampleCase({ effort: 2 }))
    expect(better.costs.lateWeight).toBeLessThanOrEqual(plan.costs.lateWeight)
  })

  test('follows when a maker is away tomorrow', () => {
    const before = planningCase.studio.makers[0]!
    const entry = {
      id: 'away',
      version: 1,
      kind: 'away',
      happenedMin: MORNING,
      roughMin: 0,
      deviceId: 'phone',
      deviceSeq: 999,
      by: null,
      hint: null,
      body: { makerId: before.id, fromMin: MORNING + 900, toMin: MORNING + 2_400 },
    } as const
    const missed = { ...planningCase, basePlan: plan, entries: [...planningCase.entries, entry] }
    const after = makePlan(missed)
    expect(checkPlan(missed, after)).toEqual([])
    const there = after.tasks.filter(
      ({ makerId, startMin, endMin }) => makerId === before.id && startMin < MORNING + 2_400 && endMin > MORNING + 900,
    )
    expect(there).toEqual([])
    expect(planDifference(plan, plan)).toEqual({ moved: [], gone: [], added: [], promises: [] })
  })
})

/** One order of four trays; `given` spoils something. */
const spoilt = (given: Parameters<typeof aStudio>[0]): PlanningCase =>
  aPlanningCase({ studio: aStudio({ orders: [anOrder()], ...given }) })

describe('what cannot be kept is left out by name', () => {
  test.each([
    ['no making hours', spoilt({ makers: [aMaker({ makingHours: [] })] }), 'no-making-hours'],
    ['nobody who may cut', spoilt({ makers: [aMaker({ skills: ['join', 'glaze', 'kiln', 'finish'] })] }), 'nobody-may'],
    ['no clay', spoilt({ clays: [{ ...aStudio().clays[0]!, onHandKg: 0.1 }] }), 'no-clay'],
    ['a piece larger than every kiln', spoilt({ designs: [aDesign({ heightMm: 2_000 })] }), 'too-large-for-every-kiln'],
    ['no kiln that fires bisque', spoilt({ kilns: [aKiln({ fires: ['glaze'] })] }), 'no-kiln-fires'],
    ['no boards', spoilt({ wareBoardCount: 0 }), 'no-board-room'],
    [
      'pins that contradict the hours',
      spoilt({ pins: [aPin({ runId: 'new:tray:1', stepId: 'cut', startMin: at(1, 3) })] }),
      'pins-contradict',
    ],
    [
      'sessions shorter than the cut',
      spoilt({ makers: [aMaker({ makingHours: hoursOn([0, 2, 4], 9, 9.5) })] }),
      'step-longer-than-any-session',
    ],
    [
      'glaze of another cone',
      spoilt({ glazes: [{ ...aStudio().glazes[0]!, coneLow: '9', coneHigh: '10' }] }),
      'glaze-does-not-suit',
    ],
  ])('%s', (_, planningCase, code) => {
    const plan = makePlan(planningCase)
    expect(checkPlan(planningCase, plan)).toEqual([])
    expect(plan.leftOut.flatMap(({ reasons }) => reasons.map((reason) => reason.code))).toContain(code)
    const [promise] = plan.promises
    expect(promise!.onTime + promise!.late + plan.leftOut.reduce((sum, { count }) => sum + count, 0)).toBe(
      promise!.wanted,
    )
  })

  test('a window that can never open', () => {
    const never = aDesign({
      steps: aDesign().steps.map((step) =>
        step.kind === 'join' ? { ...step, band: { from: 'bone dry', to: 'soft' } as const } : step,
      ),
    })
    const planningCase = spoilt({ designs: [never] })
    const plan = makePlan(planningCase)
    expect(checkPlan(planningCase, plan)).toEqual([])
    expect(plan.leftOut[0]!.reasons[0]!.code).toMatch(/^window-/)
  })

  test('each remedy that is said was found to work', () => {
    const planningCase = spoilt({ clays: [{ ...aStudio().clays[0]!, onHandKg: 0.1 }] })
    const [left] = makePlan(planningCase).leftOut
    const remedy = left!.remedies.find(({ code }) => code === 'remedy-more-clay')
    expect(remedy).toBeDefined()
    const { massKg } = remedy!.params as { massKg: number }
    const mended = spoilt({ clays: [{ ...aStudio().clays[0]!, onHandKg: 0.1 + massKg }] })
    expect(makePlan(mended).leftOut).toEqual([])
  })

  test('so many fewer as are said do work, however little clay there is', () => {
    const tried = [0.1, 1, 3, 5].flatMap((onHandKg) => {
      const clays = [{ ...aStudio().clays[0]!, onHandKg }]
      const remedies = makePlan(spoilt({ clays })).leftOut.flatMap((left) => left.remedies)
      return remedies.flatMap(({ code, params }) => {
        if (code !== 'remedy-fewer') return []
        const wanted = anOrderLine().count - (params as { count: number }).count
        const orders = [anOrder({ lines: [anOrderLine({ count: wanted })] })]
        return [makePlan(spoilt({ clays, orders })).leftOut]
      })
    })
    expect(tried.length).toBeGreaterThan(0)
    expect(tried.flat()).toEqual([])
  })
})

describe('a date that has passed', () => {
  test('is late, not lost', () => {
    const planningCase = aPlanningCase({ studio: aStudio({ orders: [anOrder({ packedByMin: at(-3) })] }) })
    const [promise] = makePlan(planningCase).promises
    expect(promise).toMatchObject({ wanted: 4, onTime: 0, late: 4 })
  })
})

test('an empty studio has an empty plan', () => {
  const planningCase = aPlanningCase({ studio: aStudio({ makers: [], designs: [], kilns: [], orders: [] }) })
  const plan = makePlan(planningCase)
  expect(checkPlan(planningCase, plan)).toEqual([])
  expect(plan).toMatchObject({ tasks: [], firings: [], promises: [], leftOut: [] })
})

test('pieces of two orders share a run, and every line is told its own date', () => {
  const orders = [
    anOrder(),
    anOrder({ id: 'second', packedByMin: at(31), lines: [anOrderLine({ id: 'second-line', count: 3 })] }),
  ]
  const plan = makePlan(aPlanningCase({ input: aPlanInput(), studio: aStudio({ orders }) }))
  expect(plan.runs.filter(({ id }) => id.startsWith('new:'))).toHaveLength(1)
  expect(plan.promises.map(({ onTime }) => onTime)).toEqual([4, 3])
})

test('random studios, logs and late days give legal plans', () => {
  expect(soakPlans(5, 7)).toMatchObject({ failures: 0 })
})
