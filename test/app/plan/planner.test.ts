import { expect, test } from 'vitest'
import type { Breach, Plan, PlanningCase } from '#core/planning/plan.ts'
import { createHappenings, type Happening } from '#app/happenings.ts'
import { createPlanner } from '#app/plan/planner.ts'
import type { PlanThread } from '#app/plan/planThread.ts'
import type { PlanOutcome } from '#app/plan/work.ts'

const breach: Breach = { check: 'fired dry', params: {} }

/** A planner over a thread that answers when the test says so; what it needs of a case and a plan is their input. */
function aPlanner({ efforts = [0, 10, 100], patienceMs = 60_000 } = {}) {
  const world = {
    logPosition: 1,
    clockMs: 0,
    saved: [] as string[],
    cases: [] as string[],
    reports: [] as string[],
    heard: [] as Happening[],
  }
  let running: { readonly planningCase: PlanningCase; readonly answer: (outcome: PlanOutcome) => void } | undefined
  const answer = (outcome: PlanOutcome) => {
    const job = running!
    running = undefined
    job.answer(outcome)
  }
  const abandon = (outOfTime = false) => running && answer({ kind: 'abandoned', outOfTime })
  const thread: PlanThread = {
    plan: (planningCase) => new Promise((resolve) => (running = { planningCase, answer: resolve })),
    abandon: () => abandon(),
    close: async () => abandon(),
  }
  const happenings = createHappenings()
  happenings.listen('studio', (happening) => world.heard.push(happening))
  const planner = createPlanner({
    book: {
      load: async (_, effort, start) => {
        const basePlanId = start ? start.basePlanId : (world.saved.at(-1) ?? null)
        world.cases.push(`${world.logPosition}/${effort}/${basePlanId}`)
        return { input: { logPosition: world.logPosition, effort, basePlanId, nowMin: 0, seed: 1 } } as PlanningCase
      },
      save: async (_, plan) => world.saved.push(plan.id) > 0,
    },
    thread,
    happenings,
    report: (event) => world.reports.push(event),
    efforts,
    limitMs: 1_000,
    patienceMs,
    clockMs: () => world.clockMs,
  })
  const turn = () => new Promise((resolve) => setTimeout(resolve))
  return {
    world,
    planner,
    turn,
    isMaking: () => running?.planningCase.input.effort,
    outOfTime: () => abandon(true),
    fault: () => answer({ kind: 'fault', error: 'a bug' }),
    finish: async (breaches: readonly Breach[] = []) => {
      const { input } = running!.planningCase
      answer({ kind: 'made', plan: { id: `${input.logPosition}-${input.effort}`, input } as Plan, breaches })
      await turn()
    },
  }
}

test('a first plan, then better ones from the same base, then rest', async () => {
  const { world, planner, turn, finish, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  expect(planner.progressOf('studio')).toEqual({ doing: 'first plan', made: 0, of: 3 })
  await finish()
  await finish()
  expect(planner.progressOf('studio')).toEqual({ doing: 'better plan', made: 2, of: 3 })
  await finish()
  expect(isMaking()).toBeUndefined()
  expect(planner.progressOf('studio').doing).toBe('nothing')
  expect(world.saved).toEqual(['1-0', '1-10', '1-100'])
  expect(world.cases).toEqual(['1/0/null', '1/10/null', '1/100/null'])
  expect(world.heard.map(({ kind }) => kind)).toEqual([
    'planning',
    'planned',
    'planning',
    'planned',
    'planning',
    'planned',
    'settled',
  ])
})

test('what happens puts an end to a better plan, and a first one follows at once', async () => {
  const { world, planner, turn, finish, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  await finish()
  expect(isMaking()).toBe(10)
  world.logPosition = 2
  planner.ask('studio')
  await turn()
  expect(isMaking()).toBe(0)
  await finish()
  expect(world.saved).toEqual(['1-0', '2-0'])
  expect(world.cases.at(-1)).toBe('2/10/1-0')
})

test('under a stream of taps first plans keep coming: none is ended by the next tap', async () => {
  const { world, planner, turn, finish } = aPlanner()
  planner.ask('studio')
  await turn()
  for (let tap = 2; tap <= 20; tap++) {
    world.logPosition = tap
    planner.ask('studio')
    planner.ask('studio')
    await turn()
    await finish()
  }
  expect(world.saved).toHaveLength(19)
  expect(world.saved.at(-1)).toBe('19-0')
})

test('a stream of taps does not put off better plans for ever', async () => {
  const { world, planner, turn, finish, isMaking } = aPlanner({ patienceMs: 60_000 })
  const tapAt = async (clockMs: number) => {
    Object.assign(world, { clockMs, logPosition: world.logPosition + 1 })
    planner.ask('studio')
    await turn()
  }
  for (const clockMs of [0, 20_000, 40_000]) {
    await tapAt(clockMs)
    expect(isMaking()).toBe(0)
    await finish()
  }
  await tapAt(60_000)
  expect(isMaking()).toBe(10) // it has waited for a minute: this tap does not end it
  await finish()
  expect(isMaking()).toBe(0) // and is the next to be answered
  await finish()
  await tapAt(80_000)
  expect(isMaking()).toBe(0) // the minute counts from the better plan on
  expect(world.saved).toEqual(['2-0', '3-0', '4-0', '4-10', '5-0'])
})

test('a plan that breaks a rule is not saved: the old one stays, and it is said', async () => {
  const { world, planner, turn, finish, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  await finish([breach])
  expect(world.saved).toEqual([])
  expect(isMaking()).toBeUndefined()
  expect(world.reports).toEqual(['planning breach'])
  expect(world.heard.slice(1)).toEqual([{ kind: 'not-planned', logPosition: 1, why: 'breach' }, { kind: 'settled' }])
})

test('a fault ends the series and is reported; the next asking starts a new one', async () => {
  const { world, planner, turn, fault, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  fault()
  await turn()
  expect(world.reports).toEqual(['planning fault'])
  expect(isMaking()).toBeUndefined()
  planner.ask('studio')
  await turn()
  expect(isMaking()).toBe(0)
})

test('a better plan that takes too long is given up, and the best so far stays', async () => {
  const { world, planner, turn, finish, outOfTime, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  await finish()
  outOfTime()
  await turn()
  expect(isMaking()).toBeUndefined()
  expect(world.saved).toEqual(['1-0'])
  expect(world.reports).toEqual(['planning out of time'])
})

test('stopping keeps what is there', async () => {
  const { world, planner, turn, finish, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  await finish()
  planner.stop('studio')
  await turn()
  expect(isMaking()).toBeUndefined()
  expect(planner.progressOf('studio').doing).toBe('nothing')
  expect(world.saved).toEqual(['1-0'])
  expect(world.heard.at(-1)).toEqual({ kind: 'settled' })
})

test('a question comes before better plans, which then go on', async () => {
  const { planner, turn, finish, isMaking } = aPlanner()
  planner.ask('studio')
  await turn()
  await finish()
  const asked = planner.tryOut({
    input: { logPosition: 7, effort: 3, basePlanId: null, nowMin: 0, seed: 1 },
  } as PlanningCase)
  await turn()
  expect(isMaking()).toBe(3)
  await finish()
  expect(await asked).toMatchObject({ kind: 'made', plan: { id: '7-3' } })
  expect(isMaking()).toBe(10)
})

test('closing answers what is still asked', async () => {
  const { planner, turn } = aPlanner()
  planner.ask('studio')
  await turn()
  const asked = planner.tryOut({ input: {} } as PlanningCase)
  await planner.close()
  expect(await asked).toEqual({ kind: 'abandoned', outOfTime: false })
})
