import { expect } from 'vitest'
import { plans } from '#db/schema/index.ts'
import type { Db } from '#store/db.ts'
import { readLearned, replaceLearned } from '#store/learned.ts'
import { insertPlan, latestPlan, listPlans, planById, removeOldPlans } from '#store/plans.ts'
import { upsertStudio } from '#store/studios.ts'
import { findTokenByHash, insertToken, listTokens, revokeToken } from '#store/tokens.ts'
import { onBothDatabases } from '../support/databases.ts'
import { aPlan } from '../support/planBuilders.ts'
import { aStudioRecord } from '../support/entryRecords.ts'
import { aPlanInput } from '../support/studioBuilders.ts'

const withStudio = (db: Db, id = 'studio') => upsertStudio(db, { ...aStudioRecord, id })

onBothDatabases('a plan comes back byte for byte, the newest first', async (db) => {
  await withStudio(db)
  const first = aPlan({ id: 'first', input: aPlanInput({ logPosition: 7 }) })
  const second = aPlan({ id: 'second', costs: { ...aPlan().costs, energyKwh: 0.1 + 0.2 } })
  expect(await insertPlan(db, 'studio', first)).toBe('saved')
  expect(await insertPlan(db, 'studio', second)).toBe('saved')
  expect(JSON.stringify(await latestPlan(db, 'studio'))).toBe(JSON.stringify(second))
  expect(JSON.stringify(await planById(db, 'studio', 'first'))).toBe(JSON.stringify(first))
  expect((await listPlans(db, 'studio', 9)).map(({ id, logPosition }) => [id, logPosition])).toEqual([
    ['second', 0],
    ['first', 7],
  ])
})

onBothDatabases('a plan stays as it was made', async (db) => {
  await withStudio(db)
  await insertPlan(db, 'studio', aPlan())
  expect(await insertPlan(db, 'studio', aPlan({ input: aPlanInput({ seed: 2 }) }))).toBe('known')
  const change = db.transaction(async (db) => db.update(plans).set({ logPosition: 3 }).returning())
  await expect(change).rejects.toMatchObject({ cause: { message: expect.stringContaining('never changed') } })
  expect(await planById(db, 'studio', 'plan')).toEqual(aPlan())
})

onBothDatabases('a plan is its studio’s alone', async (db) => {
  await withStudio(db)
  await withStudio(db, 'other')
  await insertPlan(db, 'studio', aPlan())
  expect(await insertPlan(db, 'nowhere', aPlan())).toBe('no-such-studio')
  expect(await latestPlan(db, 'other')).toBeUndefined()
  expect(await planById(db, 'other', 'plan')).toBeUndefined()
})

onBothDatabases('old plans can be removed', async (db) => {
  await withStudio(db)
  for (const id of ['a', 'b', 'c']) await insertPlan(db, 'studio', aPlan({ id }))
  await removeOldPlans(db, 'studio', 2)
  expect((await listPlans(db, 'studio', 9)).map(({ id }) => id)).toEqual(['c', 'b'])
})

onBothDatabases('what was learned is replaced as a whole', async (db) => {
  await withStudio(db)
  const value = { subject: 'rack', spread: 0.1, spreadKind: 'times' as const, observationCount: 4, logPosition: 9 }
  await replaceLearned(db, 'studio', [{ ...value, parameter: 'airFactor', value: 1.1 }])
  const now = [{ ...value, parameter: 'rimFactor', value: 1.7 }]
  await replaceLearned(db, 'studio', now)
  expect(await readLearned(db, 'studio')).toEqual(now)
})

onBothDatabases('a token opens its studio until it is taken back', async (db) => {
  await withStudio(db)
  await insertToken(db, 'studio', { id: 'probe', kind: 'sensor', name: 'Rack', hash: 'beef', spotId: 'rack' })
  expect(await findTokenByHash(db, 'beef')).toEqual({ studioId: 'studio', id: 'probe', kind: 'sensor', spotId: 'rack' })
  expect(await revokeToken(db, 'other', 'probe')).toBe('not-there')
  expect(await revokeToken(db, 'studio', 'probe')).toBe('revoked')
  expect(await findTokenByHash(db, 'beef')).toBeUndefined()
  expect(await listTokens(db, 'studio')).toMatchObject([{ name: 'Rack', revokedAt: expect.any(String) as string }])
})
