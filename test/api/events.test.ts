import { expect, test } from 'vitest'
import { createHappenings } from '#app/happenings.ts'
import { entryRecords } from '../support/entryRecords.ts'
import { aStudioFile } from '../support/recordBuilders.ts'
import { anApi } from '../support/anApi.ts'
import { withDb } from '../support/databases.ts'

/** Reads server-sent events until `until` has come. @see WHATWG HTML, section 9.2.5 */
async function eventsOf(response: Response, until: string): Promise<string[]> {
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader()
  let text = ''
  while (!text.includes(`event: ${until}`) || !text.endsWith('\n\n')) {
    const { value, done } = await reader.read()
    if (done) break
    text += value
  }
  await reader.cancel()
  return text.split('\n\n').flatMap((event) => /^event: (.*)$/m.exec(event)?.[1] ?? [])
}

test('screens hear what happens, as it happens', () =>
  withDb(async (db) => {
    const happenings = createHappenings()
    const { send } = anApi(db, { happenings })
    await send('POST', '/api/import', aStudioFile({ entries: [] }))
    const response = await send('GET', '/api/events')
    expect(response.headers.get('content-type')).toBe('text/event-stream')
    const heard = eventsOf(response, 'planned')
    await send('POST', '/api/log', entryRecords(2))
    happenings.tell('another studio', { kind: 'settled' })
    happenings.tell('studio', { kind: 'planned', planId: 'plan-1', logPosition: 2, effort: 0 })
    expect(await heard).toEqual(['hello', 'logged', 'planned'])
  }))

test('who has left is told no more', () =>
  withDb(async (db) => {
    const happenings = createHappenings()
    let listeners = 0
    const counted = {
      ...happenings,
      listen: (...args: Parameters<typeof happenings.listen>) => {
        listeners++
        const stop = happenings.listen(...args)
        return () => {
          listeners--
          stop()
        }
      },
    }
    const { send } = anApi(db, { happenings: counted })
    await send('POST', '/api/import', aStudioFile())
    const heard = eventsOf(await send('GET', '/api/events'), 'hello')
    await heard
    await expect.poll(() => listeners).toBe(0)
  }))

test('before there is a studio the stream ends, to be opened again', () =>
  withDb(async (db) => {
    const response = await anApi(db).send('GET', '/api/events')
    expect(await response.text()).toContain('retry: 2000')
  }))
