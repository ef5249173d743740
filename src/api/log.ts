import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { appendToLog } from '#app/log/appendToLog.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { type EntryRecord, entryRecord } from '#contract/entry.ts'
import { listOf } from '#contract/fields.ts'
import { entriesAfter, entriesBefore, type PlacedEntry } from '#store/logEntries.ts'
import { answers, countIn, jsonBody, oneOrMany } from './answers.ts'
import { logBody } from './bodyLimits.ts'
import type { ApiEnv } from './env.ts'
import { announce, type Desk } from './parts.ts'
import { refuseInvalid } from './validate.ts'

/** The compiler is spared the thirty kinds, which it would spell out in every type. */
const entry: z.ZodType<EntryRecord> = entryRecord

/** A device that was away for a season has fewer. */
const mostAtOnce = 5_000

/** The largest that the database counts to. */
const lastPosition = 2_147_483_647
const position = countIn('The position in the log', 0, lastPosition)
const placed = z.object({ position: z.int(), entry: entry })

const page = z.object({
  after: position.optional().openapi({ description: 'Entries after this position, oldest first' }),
  before: position.optional().openapi({ description: 'Entries before this position, newest first; the default' }),
  limit: countIn('The number of entries', 1, mostAtOnce).default(500),
})
const getLog = createRoute({
  method: 'get',
  path: '/log',
  request: { query: page },
  responses: answers(200, 'What happened', z.object({ logPosition: z.int(), entries: z.array(placed) })),
})

const place = z.object({ id: z.string(), outcome: z.enum(['added', 'known', 'differs']), position: z.int() })
const postLog = createRoute({
  method: 'post',
  path: '/log',
  middleware: logBody,
  request: jsonBody(oneOrMany(listOf('entries', entry, 1, mostAtOnce))),
  responses: answers(200, 'Where each entry stands', z.object({ logPosition: z.int(), places: z.array(place) })),
})

/** One tap, or all that a device did while it was away, in one commit. */
export const logRoutes = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(getLog, async (c) => {
      const { after, before = lastPosition, limit } = c.req.valid('query')
      const { id, logPosition } = await onlyStudio(desk.db)
      const entries: readonly PlacedEntry[] =
        after === undefined
          ? await entriesBefore(desk.db, id, before, limit)
          : await entriesAfter(desk.db, id, after, limit)
      return c.json({ logPosition, entries: [...entries] }, 200)
    })
    .openapi(postLog, async (c) => {
      const { id } = await onlyStudio(desk.db)
      const places = await appendToLog(desk.db, id, c.req.valid('json'))
      const { logPosition } = await onlyStudio(desk.db)
      if (places.some(({ outcome }) => outcome === 'added')) await announce(desk, id)
      return c.json({ logPosition, places: [...places] }, 200)
    })
