/** The planner's book on real databases: cases out of them, plans into them. */
import { expect } from 'vitest'
import { appendToLog } from '#app/log/appendToLog.ts'
import { loadCase } from '#app/plan/loadCase.ts'
import { savePlan } from '#app/plan/savePlan.ts'
import { importStudio } from '#app/transfer/importStudio.ts'
import type { PlanInput } from '#core/planning/plan.ts'
import type { Db } from '#store/db.ts'
import { latestPlan } from '#store/plans.ts'
import { onBothDatabases } from '../../support/databases.ts'
import { entryRecords } from '../../support/entryRecords.ts'
import { aPlan } from '../../support/planBuilders.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'

const nowMin = Date.UTC(2026, 2, 2, 12) / 60_000

async function withLog(db: Db, count: number): Promise<void> {
  await importStudio(db, aStudioFile({ entries: [] }), true)
  if (count > 0) await appendToLog(db, 'studio', entryRecords(count))
}

const planOf = (id: string, input: Partial<PlanInput>, energyKwh = 10) => {
  const plan = aPlan()
  return {
    ...plan,
    id,
    input: { ...plan.input, nowMin, basePlanId: null, ...input },
    costs: { ...plan.costs, energyKwh },
  }
}

onBothDatabases('a case has the whole log, and the newest plan as the one that the potter knows', async (db) => {
  await withLog(db, 3)
  const first = await loadCase(db, 'studio', 0, nowMin)
  expect(first.input).toMatchObject({ logPosition: 3, nowMin, basePlanId: null, effort: 0 })
  expect(first.entries.map(({ id }) => id)).toEqual(['entry-1', 'entry-2', 'entry-3'])
  await savePlan(db, 'studio', planOf('known', { logPosition: 3 }))
  expect((await loadCase(db, 'studio', 0, nowMin)).basePlan).toMatchObject({ id: 'known' })
})

onBothDatabases('a better plan is asked the same question as the first of its series', async (db) => {
  await withLog(db, 3)
  await savePlan(db, 'studio', planOf('first', { logPosition: 3 }))
  const better = await loadCase(db, 'studio', 20, nowMin + 2, { basePlanId: null, nowMin })
  expect(better.input).toMatchObject({ logPosition: 3, nowMin, basePlanId: null, effort: 20 })
})

onBothDatabases('one that costs no less over the same question is not kept', async (db) => {
  await withLog(db, 3)
  expect(await savePlan(db, 'studio', planOf('first', { logPosition: 3 }, 10))).toBe(true)
  expect(await savePlan(db, 'studio', planOf('same', { logPosition: 3, effort: 4 }, 10))).toBe(false)
  expect(await savePlan(db, 'studio', planOf('better', { logPosition: 3, effort: 20 }, 9))).toBe(true)
  expect(await savePlan(db, 'studio', planOf('later', { logPosition: 3, nowMin: nowMin + 30 }, 12))).toBe(true)
  expect((await latestPlan(db, 'studio'))?.id).toBe('later')
})

onBothDatabases('one made of less of the log does not take the place of one made of more', async (db) => {
  await withLog(db, 5)
  await savePlan(db, 'studio', planOf('newer', { logPosition: 5 }))
  expect(await savePlan(db, 'studio', planOf('older', { logPosition: 4 }, 1))).toBe(false)
  expect((await latestPlan(db, 'studio'))?.id).toBe('newer')
})

onBothDatabases('one made of a logbook that has since been replaced is not kept', async (db) => {
  await withLog(db, 2)
  expect(await savePlan(db, 'studio', planOf('of the old one', { logPosition: 40 }))).toBe(false)
  expect(await latestPlan(db, 'studio')).toBeUndefined()
})
