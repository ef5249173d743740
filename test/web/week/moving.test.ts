import { describe, expect, test } from 'vitest'
import type { RunTask } from '#core/planning/plan.ts'
import { ableFor, boundsOf, doubtsOf, draggedTo, keyedTo } from '../../../src/web/week/moving.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'
import { at } from '../../support/studioBuilders.ts'

const task: RunTask = {
  id: 'run/join',
  kind: 'step',
  runId: 'run',
  stepId: 'join',
  glazeId: null,
  makerId: 'mara',
  startMin: at(1, 9, 20),
  endMin: at(1, 10, 50),
  count: 4,
  window: { openMin: at(1, 9), closeMin: at(1, 12), odds: 0.9, bindingPart: 'Base' },
  after: null,
  parkWhen: null,
  pinned: false,
}
const bounds = boundsOf(task, at(0, 8, 7), at(7))
const from = { makerId: 'mara', startMin: task.startMin }

test('a step stays between now and the end of what is shown, as long as it is', () =>
  expect(bounds).toEqual({ earliestMin: at(0, 8, 15), latestMin: at(6, 22, 30) }))

describe('a drag', () => {
  test('lands on a quarter of an hour', () =>
    expect(draggedTo(from, 64, 'mara', bounds)).toEqual({ makerId: 'mara', startMin: at(1, 10, 30) }))
  test('of a few minutes moves nothing', () => expect(draggedTo(from, 7, 'mara', bounds)).toEqual(from))
  test('straight down changes the maker alone', () =>
    expect(draggedTo(from, 0, 'jo', bounds)).toEqual({ makerId: 'jo', startMin: at(1, 9, 20) }))
  test('does not lead into the past', () =>
    expect(draggedTo(from, -5_000, 'mara', bounds).startMin).toBe(bounds.earliestMin))
  test('does not lead beyond what is shown', () =>
    expect(draggedTo(from, 50_000, 'mara', bounds).startMin).toBe(bounds.latestMin))
})

describe('a key', () => {
  const press = (key: string, shiftKey = false) => keyedTo(from, { key, shiftKey }, ['jo', 'mara', 'ben'], bounds)
  test('goes to the next quarter of an hour on either side', () => {
    expect(press('ArrowRight')?.startMin).toBe(at(1, 9, 30))
    expect(press('ArrowLeft')?.startMin).toBe(at(1, 9, 15))
  })
  test('with shift goes an hour', () => expect(press('ArrowRight', true)?.startMin).toBe(at(1, 10, 15)))
  test('goes round through those who may do it', () => {
    expect(press('ArrowDown')?.makerId).toBe('ben')
    expect(press('ArrowUp')?.makerId).toBe('jo')
    expect(
      keyedTo({ ...from, makerId: 'ben' }, { key: 'ArrowDown', shiftKey: false }, ['jo', 'ben'], bounds)?.makerId,
    ).toBe('jo')
  })
  test('that means nothing here moves nothing', () => expect(press('a')).toBeUndefined())
})

test('only those with the skill may do a step', () => {
  const studio = aStudioFile()
  expect(ableFor(task, () => 'tray', studio)).toEqual(['mara'])
})

describe('what speaks against a place', () => {
  const doubts = (startMin: number, given: Partial<Parameters<typeof doubtsOf>[1]> = {}) =>
    doubtsOf({ makerId: 'mara', startMin }, { task, hours: undefined, others: [task], nowMin: at(0, 8), ...given }).map(
      ({ kind }) => kind,
    )
  test('nothing, where it was planned', () => expect(doubts(task.startMin)).toEqual([]))
  test('the window has not opened', () => expect(doubts(at(1, 8, 45))).toEqual(['before-window']))
  // From 10:45 it takes until 12:15.
  test('the window closes while it is done', () => expect(doubts(at(1, 10, 45))).toEqual(['after-window']))
  test('there are no hours for all of it', () =>
    expect(doubts(at(1, 9, 20), { hours: [{ startMin: at(1, 9), endMin: at(1, 10) }] })).toEqual(['outside-hours']))
  test('the hands have something else then', () => {
    const other = { ...task, id: 'other', startMin: at(1, 10, 40), endMin: at(1, 11) }
    expect(doubts(at(1, 9, 20), { others: [task, other] })).toEqual(['busy'])
    expect(doubts(at(1, 9, 10), { others: [task, other] })).toEqual([])
  })
  test('it has passed', () => expect(doubts(at(0, 7))).toEqual(['past', 'before-window']))
})
