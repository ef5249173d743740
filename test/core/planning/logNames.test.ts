import { expect, test } from 'vitest'
import { inLogNames } from '#core/planning/logNames.ts'
import type { PlannedRun, PlanningCase, RunTask } from '#core/planning/plan.ts'
import { anEntry } from '../../support/entryBuilders.ts'
import { aPlan } from '../../support/planBuilders.ts'

const cutHint = { planId: 'plan', stepId: 'new:tray:1/cut' }
const cut = (runId: string, hint: typeof cutHint | null, minute = 10) =>
  anEntry('cut', minute, { runId, designId: 'tray', count: 4, cover: 'open', spotId: 'rack' }, { hint })

/** Only what names are read from. */
function aCase(entries: PlanningCase['entries']): PlanningCase {
  const designs = [{ id: 'tray', steps: [{ id: 'cut', kind: 'cut' }] }]
  const pins = [{ id: 'p', runId: 'new:tray:1', stepId: 'join', startMin: 90, makerId: null }]
  const tasks = ['cut', 'join'].map(
    (stepId) => ({ id: `new:tray:1/${stepId}`, runId: 'new:tray:1', stepId, glazeId: null }) as RunTask,
  )
  const basePlan = aPlan({ tasks, runs: [{ id: 'new:tray:1' } as PlannedRun] })
  return { studio: { designs, pins }, entries, basePlan } as unknown as PlanningCase
}

test('a pin and what was shown follow a run to the name that its cut gave it', () => {
  const { studio, basePlan } = inLogNames(aCase([cut('run-a', cutHint)]))
  expect(studio.pins[0]!.runId).toBe('run-a')
  expect(basePlan!.tasks.map(({ id, runId }) => [id, runId])).toEqual([
    ['run-a/cut', 'run-a'],
    ['run-a/join', 'run-a'],
  ])
  expect(basePlan!.runs[0]!.id).toBe('run-a')
})

test('of two halves the first keeps what was shown', () => {
  const { studio } = inLogNames(aCase([cut('run-a', cutHint), cut('run-b', cutHint, 20)]))
  expect(studio.pins[0]!.runId).toBe('run-a')
})

test('a cut that answers no plan, or was taken back, names nothing', () => {
  const voided = cut('run-a', cutHint)
  const log = [voided, anEntry('corrected', 11, { entryId: voided.id }), cut('run-b', null, 20)]
  const asked = aCase(log)
  expect(inLogNames(asked)).toBe(asked)
})
