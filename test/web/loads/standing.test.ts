import { expect, test } from 'vitest'
import type { FiringState } from '#core/logbook/state.ts'
import { loadsShown } from '../../../src/web/loads/standing.ts'
import { handPlan } from '../../support/handPlan.ts'

const planned = handPlan.firings[0]!
const { shutOffMin, startMin } = planned
const logged = (given: Partial<FiringState> = {}): FiringState => ({
  id: planned.id,
  kilnId: planned.kilnId,
  kind: planned.kind,
  scheduleId: planned.scheduleId,
  members: [],
  loadedMin: planned.loadMin,
  firedMin: null,
  candleHours: 0,
  openedMin: null,
  unloadedMin: null,
  cones: [],
  readings: [],
  energyKwh: null,
  ...given,
})
const whereIs = (states: readonly FiringState[], nowMin: number) => {
  const { running, cooling, coming, past } = loadsShown([planned], states, nowMin)
  return [running, cooling, coming, past].map(({ length }) => length)
}

test('a load that nobody has touched is to come', () => expect(whereIs([], startMin)).toEqual([0, 0, 1, 0]))
test('so is one that is loaded but not lit, and it says so', () => {
  expect(whereIs([logged()], startMin)).toEqual([0, 0, 1, 0])
  expect(loadsShown([planned], [logged()], startMin).coming[0]?.standing).toBe('loaded')
})
test('lit, it runs until it is expected to shut off, then cools until it is emptied', () => {
  const lit = logged({ firedMin: startMin })
  expect(whereIs([lit], shutOffMin - 1)).toEqual([1, 0, 0, 0])
  expect(whereIs([lit], shutOffMin)).toEqual([0, 1, 0, 0])
  expect(whereIs([logged({ firedMin: startMin, openedMin: shutOffMin + 600 })], shutOffMin + 700)).toEqual([0, 1, 0, 0])
})
test('emptied, it is past, though the plan has not heard of it', () =>
  expect(whereIs([logged({ firedMin: startMin, unloadedMin: shutOffMin + 900 })], shutOffMin + 901)).toEqual([
    0, 0, 0, 1,
  ]))
test('of the past the latest stands first', () => {
  const states = [1, 3, 2].map((day) => logged({ id: `day ${day}`, unloadedMin: day * 1_440 }))
  expect(loadsShown([], states, 9_000).past.map(({ id }) => id)).toEqual(['day 3', 'day 2', 'day 1'])
})
test('what is loaded in more than two weeks stands apart', () => {
  const where = (nowMin: number) => {
    const { coming, later } = loadsShown([planned], [], nowMin)
    return [coming.length, later.length]
  }
  const twoWeeksBeforeMin = planned.loadMin - 14 * 1_440
  expect(where(twoWeeksBeforeMin)).toEqual([0, 1])
  expect(where(twoWeeksBeforeMin + 1)).toEqual([1, 0])
})
