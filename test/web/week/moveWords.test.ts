import { expect, test } from 'vitest'
import { outcomeOf, type Supposed } from '../../../src/web/week/moveWords.ts'
import { handPlan, RUN } from '../../support/handPlan.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'
import { at } from '../../support/studioBuilders.ts'

const say = {
  studio: aStudioFile({
    orders: [
      { id: 'order', kind: 'customer', name: 'Café', dueDate: '2026-04-18', weight: 1, oddsWanted: 0.9, lines: [] },
    ],
  }),
  context: { zone: 'UTC', locale: 'en-GB', units: 'metric', nowMin: at(0, 8) },
  shown: { runs: [] },
} as const
const join = handPlan.tasks.find(({ stepId }) => stepId === 'join')!
const cut = handPlan.tasks.find(({ stepId }) => stepId === 'cut')!
const place = { makerId: 'mara', startMin: at(1, 10) }
const promise = handPlan.promises[0]!
const moved = { before: join, after: { ...join, startMin: place.startMin } }
const none = { moved: [], gone: [], added: [] }
const planWith = (startMin: number) => ({
  ...handPlan,
  tasks: handPlan.tasks.map((task) => (task === join ? { ...task, startMin } : task)),
})
const supposed = (given: Partial<Supposed>): Supposed => ({
  plan: planWith(place.startMin),
  steps: none,
  promises: [],
  ...given,
})

test('the step itself is not among those that move with it', () => {
  const outcome = outcomeOf(supposed({ steps: { ...none, moved: [moved] } }), join, place, say)
  expect(outcome).toEqual({ isPlaced: true, why: [], moves: [], promises: [] })
})

test('what moves with it is said with both times, and with both makers where they differ', () => {
  const later = { before: cut, after: { ...cut, startMin: at(0, 11), makerId: 'jo' } }
  const { moves } = outcomeOf(supposed({ steps: { ...none, moved: [later], gone: [] } }), join, place, say)
  expect(moves).toEqual([expect.stringMatching(/: today 9:00 to today 11:00, Mara to Jo$/)])
})

test('the nearest is said first, and a run that would be gone keeps its name', () => {
  const near = { ...cut, runId: 'gone', startMin: at(0, 10) }
  const far = { before: cut, after: { ...cut, startMin: at(3, 9) } }
  const steps = { moved: [{ ...far, before: { ...cut, startMin: at(3, 8) } }], gone: [near], added: [] }
  const shown = { runs: [{ ...handPlan.runs[0]!, id: 'gone' }] }
  const { moves } = outcomeOf(supposed({ steps }), join, place, { ...say, shown })
  expect(moves).toEqual([
    'No longer planned: Roll and cut: 2 Trays, today 10:00',
    'Roll and cut: 2 Trays: Thursday 8:00 to Thursday 9:00',
  ])
})

test('an order is named only where something of it is said otherwise', () => {
  const alike = { before: promise, after: { ...promise, odds: promise.odds + 1e-6 } }
  const worse = { before: promise, after: { ...promise, onTime: 1, odds: 0.7 } }
  expect(outcomeOf(supposed({ promises: [alike] }), join, place, say).promises).toEqual([])
  expect(outcomeOf(supposed({ promises: [worse] }), join, place, say).promises).toEqual([
    expect.stringMatching(/^Café, .*: 1 by the date, was 2 by the date; odds 7 in 10, was odds 9 in 10$/),
  ])
})

test('where it cannot stand, the plan’s own reasons are given once', () => {
  const reason = { code: 'pins-contradict', params: { step: 'Join', pinnedMin: place.startMin } } as const
  const left = {
    orderId: null,
    orderLineId: null,
    runId: RUN,
    designId: 'tray',
    count: 2,
    reasons: [reason],
    remedies: [],
  }
  const plan = { ...handPlan, leftOut: [left, left] }
  const { isPlaced, why } = outcomeOf(supposed({ plan }), join, place, say)
  expect(isPlaced).toBe(false)
  expect(why).toEqual([expect.stringMatching(/“Join” is pinned to tomorrow 10:00/)])
})
