import { expect, test } from 'vitest'
import type { RunTask } from '#core/planning/plan.ts'
import { sessionsOf } from '../../../src/web/week/sessions.ts'

const week = { fromMin: 0, toMin: 10_080 }
const aTask = (id: string, makerId: string, startMin: number, endMin: number): RunTask => ({
  id,
  kind: 'step',
  runId: 'run',
  stepId: 'join',
  glazeId: null,
  makerId,
  startMin,
  endMin,
  count: 1,
  window: null,
  after: null,
  parkWhen: null,
  pinned: false,
})
const idsOf = (tasks: readonly RunTask[]) => sessionsOf(tasks, week).map((session) => session.tasks.map(({ id }) => id))

test('an hour between hands is a pause, more ends the session', () => {
  expect(idsOf([aTask('a', 'mara', 0, 30), aTask('b', 'mara', 90, 100), aTask('c', 'mara', 161, 170)])).toEqual([
    ['a', 'b'],
    ['c'],
  ])
})

test('each maker has sessions of their own', () => {
  expect(idsOf([aTask('a', 'mara', 0, 30), aTask('b', 'jon', 10, 40), aTask('c', 'mara', 40, 50)])).toEqual([
    ['a', 'c'],
    ['b'],
  ])
})

test('what ends before the week is left out', () => {
  expect(idsOf([aTask('a', 'mara', -60, 0)])).toEqual([])
})
