import { expect, test } from 'vitest'
import { aStudioFile } from '../support/recordBuilders.ts'
import { anApi } from '../support/anApi.ts'
import { firstAnswers } from '../support/firstAnswers.ts'
import { onBothDatabases, withDb } from '../support/databases.ts'

onBothDatabases('a studio out and in again is the same, byte for byte', async (db) => {
  const { send } = anApi(db)
  await send('POST', '/api/import', aStudioFile())
  const out = await (await send('GET', '/api/export')).text()
  expect((await send('POST', '/api/import?replace=yes', out)).status).toBe(200)
  expect(await (await send('GET', '/api/export')).text()).toBe(out)
})

onBothDatabases('the example goes into an empty database, and only there', async (db) => {
  const { send, asked } = anApi(db)
  expect(await (await send('POST', '/api/example')).json()).toEqual({ studioId: 'example' })
  expect(asked).toEqual(['example'])
  const again = await send('POST', '/api/example')
  expect(again.status).toBe(409)
  expect(((await again.json()) as { detail: string }).detail).toContain('There is a studio here already')
})

onBothDatabases('a first studio of one’s own goes into an empty database, and only there', async (db) => {
  const { send, asked } = anApi(db)
  const wrong = await send('POST', '/api/begin', { ...firstAnswers, makingDays: [] })
  expect(wrong.status).toBe(422)
  expect(await (await send('POST', '/api/begin', firstAnswers)).json()).toEqual({ studioId: 'studio' })
  expect(asked).toEqual(['studio'])
  expect(await (await send('GET', '/api/studio')).json()).toMatchObject({ name: 'Back room', zone: 'Europe/London' })
  expect((await send('POST', '/api/begin', firstAnswers)).status).toBe(409)
})

test('a studio takes the place of another only when that is said, and after a backup', () =>
  withDb(async (db) => {
    let backups = 0
    const { send } = anApi(db, { backUp: async () => `backup-${++backups}` })
    await send('POST', '/api/example')
    expect((await send('POST', '/api/import', aStudioFile())).status).toBe(409)
    expect(backups).toBe(0)
    expect((await send('POST', '/api/import?replace=yes', aStudioFile())).status).toBe(200)
    expect(backups).toBe(1)
    expect(await (await send('GET', '/api/studio')).json()).toEqual(aStudioFile().studio)
  }))

test('a file that cannot be read changes nothing', () =>
  withDb(async (db) => {
    const { send } = anApi(db)
    await send('POST', '/api/example')
    for (const bad of ['{"format": "wareboard-studio", "versi', '[]', '{"format":"other"}', '']) {
      const response = await send('POST', '/api/import?replace=yes', bad)
      expect(response.status).toBe(422)
      expect(((await response.json()) as { detail: string }).detail).toMatch(/^(The file|This is not)/)
    }
    expect(((await (await send('GET', '/api/studio')).json()) as { id: string }).id).toBe('example')
  }))

test('more than a hundred and fifty megabytes are refused by the length that is said', () =>
  withDb(async (db) => {
    const response = await anApi(db).send('POST', '/api/import', '{}', { 'content-length': '150000001' })
    expect(response.status).toBe(413)
  }))

test('what can be asked is described as OpenAPI 3.1, every path of it', () =>
  withDb(async (db) => {
    const { send } = anApi(db)
    const description = (await (await send('GET', '/api/openapi.json')).json()) as {
      openapi: string
      paths: Record<string, unknown>
    }
    expect(description.openapi).toBe('3.1.0')
    for (const path of ['/api/studio', '/api/makers', '/api/makers/{id}', '/api/log', '/api/plan', '/api/export'])
      expect(description.paths).toHaveProperty([path])
  }))
