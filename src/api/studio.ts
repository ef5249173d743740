import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { keepStudio } from '#app/records/keepStudio.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { tablesOf } from '#app/records/wholeFile.ts'
import { type StudioRecord, studioRecord } from '#contract/studio.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import { answers, jsonBody, made } from './answers.ts'
import type { ApiEnv } from './env.ts'
import { announce, type Desk, nowAt } from './parts.ts'
import { refuseInvalid } from './validate.ts'

const tables = made<Omit<StudioTables, 'airReadings'>>(
  'StudioTables',
  'All tables of the studio but the log of its air',
)

const studio: z.ZodType<StudioRecord> = studioRecord

const getStudio = createRoute({ method: 'get', path: '/studio', responses: answers(200, 'The studio', studio) })
const getTables = createRoute({
  method: 'get',
  path: '/studio/tables',
  responses: answers(200, 'All it has and wants', tables),
})
const putStudio = createRoute({
  method: 'put',
  path: '/studio',
  request: jsonBody(studio),
  responses: answers(200, 'The studio is kept', z.object({ outcome: z.enum(['added', 'changed']) })),
})

export const studioRoutes = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(getStudio, async (c) => {
      const all = await tablesOf(desk.db, (await onlyStudio(desk.db)).id)
      return c.json(all.studio, 200)
    })
    .openapi(getTables, async (c) => {
      const { airReadings: _, ...all } = await tablesOf(desk.db, (await onlyStudio(desk.db)).id)
      return c.json(all, 200)
    })
    .openapi(putStudio, async (c) => {
      const sent = c.req.valid('json')
      const outcome = await keepStudio(desk.db, sent, nowAt(desk))
      await announce(desk, sent.id)
      return c.json({ outcome }, 200)
    })
