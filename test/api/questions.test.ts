import { describe, expect, test } from 'vitest'
import type { StudioFile } from '#contract/studioFields.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { HonestDate } from '#app/questions/honestDate.ts'
import type { WhatIf } from '#app/questions/whatIf.ts'
import type { Planner } from '#app/plan/planner.ts'
import { workOut } from '#app/plan/workOut.ts'
import { handWorks } from '#core/studio/studio.ts'
import type { Db } from '#store/db.ts'
import { anEntryRecord } from '../support/entryRecords.ts'
import { aStudioFile } from '../support/recordBuilders.ts'
import { anApi } from '../support/anApi.ts'
import { withDb } from '../support/databases.ts'

/** A planner that makes real plans, in the same thread. */
const working: Planner = {
  ask: () => {},
  stop: () => {},
  progressOf: () => ({ doing: 'nothing', made: 0, of: 0 }),
  tryOut: async (planningCase) => workOut(planningCase),
  close: async () => {},
}

const smallOrder = {
  id: 'new',
  kind: 'customer',
  name: 'Café on the corner',
  dueDate: '2026-03-06',
  weight: 1,
  oddsWanted: 0.6,
  lines: [{ id: 'new-1', designId: 'tray', glazeId: 'blue', count: 2 }],
} as const

async function aStudioToAsk(db: Db, given: Partial<StudioFile> = {}) {
  const made = anApi(db, { planner: working })
  const file = aStudioFile({ entries: [], pins: [], ...given })
  const response = await made.send('POST', '/api/import', file)
  expect(response.status).toBe(200)
  return { ...made, file }
}

/** She does everything, from morning to night, and minds the kiln. */
const everyDayOfMara = {
  makers: [{ id: 'mara', name: 'Mara', skills: handWorks }],
  hours: (['making', 'kiln-watch'] as const).map((purpose) => ({
    id: purpose,
    makerId: 'mara',
    purpose,
    rrule: 'FREQ=DAILY',
    startDate: '2026-03-02',
    startTime: purpose === 'making' ? '08:00' : '06:00',
    durationMin: purpose === 'making' ? 600 : 1_000,
    exceptDates: [],
    extraDates: [],
  })),
  busyTimes: [],
}

describe('what if', () => {
  test('one order more is promised something, and nothing has changed by asking', () =>
    withDb(async (db) => {
      const { send } = await aStudioToAsk(db, { orders: [] })
      const before = await (await send('GET', '/api/export')).text()
      const response = await send('POST', '/api/what-if', { changes: [{ kind: 'order', order: smallOrder }] })
      expect(response.status).toBe(200)
      const answer = (await response.json()) as WhatIf
      expect(answer.promises.some(({ before, after }) => before === null && after?.orderId === 'new')).toBe(true)
      expect(await (await send('GET', '/api/export')).text()).toBe(before)
      expect(await (await send('GET', '/api/plan')).json()).toMatchObject({ plan: null })
    }))

  test('an order more brings its steps with it', () =>
    withDb(async (db) => {
      const { send } = await aStudioToAsk(db, { orders: [], ...everyDayOfMara })
      const order = { ...smallOrder, dueDate: '2026-04-20' }
      const answer = (await (
        await send('POST', '/api/what-if', { changes: [{ kind: 'order', order }] })
      ).json()) as WhatIf
      expect(answer.steps.added.map(({ stepId }) => stepId)).toContain('cut')
      expect([...answer.steps.moved, ...answer.steps.gone]).toEqual([])
    }))

  test('without an order there is nothing to promise it', () =>
    withDb(async (db) => {
      const { send } = await aStudioToAsk(db, { orders: [smallOrder] })
      const changes = [{ kind: 'without-order', orderId: smallOrder.id }]
      const answer = (await (await send('POST', '/api/what-if', { changes })).json()) as WhatIf
      expect(answer.plan.promises).toEqual([])
      expect(answer.promises).toMatchObject([{ before: { orderId: smallOrder.id }, after: null }])
    }))

  test('of what is not there, nothing can be supposed', () =>
    withDb(async (db) => {
      const { send } = await aStudioToAsk(db)
      const order = { ...smallOrder, lines: [{ ...smallOrder.lines[0], designId: 'no-such' }] }
      const response = await send('POST', '/api/what-if', { changes: [{ kind: 'order', order }] })
      expect(response.status).toBe(422)
      expect(((await response.json()) as { detail: string }).detail).toContain('“no-such”')
    }))
})

test('a promise is the earliest date that was tried and kept, not before the wished one', () =>
  withDb(async (db) => {
    const { send } = await aStudioToAsk(db, { orders: [], ...everyDayOfMara })
    const askedFor = async (dueDate: string) =>
      (await (await send('POST', '/api/promise', { order: { ...smallOrder, dueDate } })).json()) as HonestDate
    const soon = await askedFor(smallOrder.dueDate)
    // Clay cut on Wednesday is not a glazed tray by Friday: the wished date is not even tried.
    expect(soon.tried.every(({ dueDate }) => dueDate > smallOrder.dueDate)).toBe(true)
    expect(soon.tried.at(-1)).toMatchObject({ dueDate: soon.dueDate, harmedOrderIds: [] })
    expect(soon.isKept).toBe(true)
    expect(soon.promises).toMatchObject([{ orderId: 'new', wanted: 2, onTime: 2 }])
    expect((await askedFor('2026-04-20')).dueDate).toBe('2026-04-20')
  }))

test('what no hands can make is promised no date, and it is said why', () =>
  withDb(async (db) => {
    const { send } = await aStudioToAsk(db, { orders: [], ...everyDayOfMara, hours: [] })
    const answer = (await (await send('POST', '/api/promise', { order: smallOrder })).json()) as HonestDate
    expect(answer).toMatchObject({ dueDate: null, promises: [], tried: [] })
    expect(answer.reasons.map(({ code }) => code)).toContain('no-making-hours')
  }))

test('runs and loads as the logbook has them', () =>
  withDb(async (db) => {
    const { send } = await aStudioToAsk(db)
    const cut = {
      kind: 'cut',
      body: { runId: 'r1', count: 6, designId: 'tray', cover: 'loose', spotId: 'rack' },
    } as const
    await send('POST', '/api/log', anEntryRecord(1, cut as never))
    const runs = (await (await send('GET', '/api/runs')).json()) as LogState['runs']
    expect(runs).toMatchObject([{ id: 'r1', designId: 'tray', count: 6, stage: 'clay' }])
    expect(await (await send('GET', '/api/runs/r1')).json()).toEqual(runs[0])
    expect((await send('GET', '/api/runs/r2')).status).toBe(404)
    expect(await (await send('GET', '/api/loads')).json()).toEqual({ logged: [], planned: [] })
    expect(await (await send('GET', '/api/state')).json()).toMatchObject({ logPosition: 1, state: { questions: [] } })
  }))
