import { expect, test } from 'vitest'
import { beginStudio } from '#app/studio/beginStudio.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { instantOf, minuteOf } from '#app/studio/wireTime.ts'
import { type EntryRecord, entryRecord } from '#contract/entry.ts'
import { logStateOf } from '#core/logbook/fold.ts'
import type { LogState } from '#core/logbook/state.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { Plan } from '#core/planning/plan.ts'
import { answersTo, type Said } from '../../../src/web/bench/deeds.ts'
import { benchDays } from '../../../src/web/bench/rows.ts'
import { firstAnswers } from '../../support/firstAnswers.ts'

const MOST_TAPS = 60

/**
 * A potter who does what the Bench says, when it says so, and gives the likeliest answer to everything: after each tap the
 * plan is made again, as the server does.
 */
function liveBy(build: 'box' | 'cylinder') {
  const {
    entries: _,
    asOf,
    format: _format,
    version: _version,
    ...tables
  } = beginStudio({ ...firstAnswers, piece: { ...firstAnswers.piece, build } }, '2026-03-02T08:00:00.000Z')
  const entries: EntryRecord[] = []
  const answered: string[] = []
  let nowMin = minuteOf(asOf)
  let basePlan: Plan | null = null
  for (let taps = 0; taps < MOST_TAPS; taps++) {
    const planningCase = planningCaseOf(tables, entries, {
      nowMin,
      logPosition: entries.length,
      seed: 1,
      effort: 0,
      basePlan,
    })
    const plan = makePlan(planningCase)
    expect(checkPlan(planningCase, plan)).toEqual([])
    const state = logStateOf(planningCase.studio, planningCase.entries)
    const context = { zone: 'Europe/London', locale: 'en-GB', units: 'metric', nowMin } as const
    const view = { plan, state, studio: tables, context }
    const rows = benchDays(view).flatMap((day) => day.rows())
    const next = rows
      .map((row) => ({ row, answer: answersTo(row, (what) => `${what}-${taps}`)[0] }))
      .find(({ answer }) => answer)
    if (!next?.answer) return { state, plan, answered }
    nowMin = Math.max(nowMin, next.row.task.endMin)
    answered.push(next.answer.name)
    const hint = { planId: plan.id, stepId: next.row.task.id }
    for (const happened of next.answer.deed.happened) entries.push(entryOf(happened, nowMin, entries.length, hint))
    basePlan = plan
  }
  throw new Error(`not done after ${MOST_TAPS} taps: ${answered.join('; ')}`)
}

function entryOf(
  { kind, body }: Said['happened'][number],
  atMin: number,
  deviceSeq: number,
  hint: EntryRecord['hint'],
): EntryRecord {
  const around = { version: 1, roughMin: 0, deviceId: 'tablet', by: 'maker', hint } as const
  return entryRecord.parse({
    ...around,
    id: `e${deviceSeq}`,
    happenedAt: instantOf(atMin),
    deviceSeq,
    kind,
    body,
  }) as EntryRecord
}

const finished = ({ shelf }: LogState): number =>
  shelf.filter(({ stage }) => stage === 'finished').reduce((sum, { count }) => sum + count, 0)

test.each(['box', 'cylinder'] as const)('whoever follows the Bench has the order on the shelf (%s)', (build) => {
  const { state, plan, answered } = liveBy(build)
  expect(state.questions).toEqual([])
  expect(finished(state)).toBeGreaterThanOrEqual(4)
  expect(plan.promises.every(({ wanted, onTime }) => onTime >= wanted)).toBe(true)
  expect(answered[0]).toMatch(/^Done, all/)
  // Once it was felt firm and sealed, nobody is asked to feel it again.
  expect(answered.filter((name) => name.startsWith('Firm enough'))).toHaveLength(1)
  expect(answered.filter((name) => name === 'Loaded as planned')).toHaveLength(2)
})
