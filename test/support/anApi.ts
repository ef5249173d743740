import { createApi } from '#api/api.ts'
import type { ApiParts } from '#api/parts.ts'
import type { LogLine } from '#api/requestLog.ts'
import { createHappenings } from '#app/happenings.ts'
import type { Planner } from '#app/plan/planner.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'
import type { Db } from '#store/db.ts'

/** Monday, 2 March 2026, nine in the morning in London and in Greenwich. */
export const apiNow = '2026-03-02T09:00:00.000Z'

/** The api on a database, with a clock that stands still and a planner that only notes who asked. */
export function anApi(db: Db, given: Partial<ApiParts> = {}) {
  const asked: string[] = []
  const lines: LogLine[] = []
  const planner: Planner = {
    ask: (studioId) => asked.push(studioId),
    stop: () => {},
    progressOf: () => ({ doing: 'nothing', made: 0, of: 0 }),
    tryOut: async () => ({ kind: 'abandoned', outOfTime: false }),
    close: async () => {},
  }
  const api = createApi(db, {
    planner,
    happenings: createHappenings(),
    log: (line) => lines.push(line),
    clockMs: () => Date.parse(apiNow),
    hostNames: ['localhost', '127.0.0.1', '[::1]'],
    backUp: null,
    exampleNow: () => exampleStudioFile('2026-03-02'),
    ...given,
  })
  const send = (method: string, path: string, body?: unknown, headers: Readonly<Record<string, string>> = {}) =>
    api.request(path, {
      method,
      headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    })
  return { api, asked, lines, send }
}
