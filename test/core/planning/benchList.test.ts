import { expect, test } from 'vitest'
import { benchList } from '#core/planning/benchList.ts'
import type { KilnTask, RunTask } from '#core/planning/plan.ts'

const task = (id: string, startMin: number, window: readonly [number, number] | null, kind: RunTask['kind'] = 'step') =>
  ({
    id,
    kind,
    runId: 'run',
    stepId: id,
    glazeId: null,
    makerId: 'maker',
    startMin,
    endMin: startMin + 30,
    count: 1,
    window: window && { openMin: window[0], closeMin: window[1], odds: 0.9, bindingPart: 'Base' },
    after: null,
    parkWhen: null,
    pinned: false,
  }) satisfies RunTask

const kilnTask: KilnTask = {
  id: 'light',
  kind: 'start',
  firingId: 'firing',
  makerId: 'maker',
  startMin: 300,
  endMin: 301,
}

const plan = {
  tasks: [
    task('later', 400, [350, 900]),
    task('roomy', 110, [0, 800]),
    task('pressing', 150, [50, 200]),
    task('cut', 120, null),
    task('look', 200, null, 'look-in'),
    task('past', 10, [0, 50]),
    task('beyond', 2000, null),
  ],
  kilnTasks: [kilnTask],
}

test('what is open comes first, the one whose clay stops waiting soonest at the top', () => {
  const { hands } = benchList(plan, 100, 1000)
  expect(hands.map((line) => line.task.id)).toEqual(['pressing', 'roomy', 'cut', 'later'])
  expect(hands.map(({ closesMin }) => closesMin)).toEqual([200, 800, null, 900])
})

test('look-ins and kilns have lists of their own; what is past or far off is on none', () => {
  const { lookIns, kiln } = benchList(plan, 100, 1000)
  expect(lookIns.map(({ id }) => id)).toEqual(['look'])
  expect(kiln).toEqual([kilnTask])
})
