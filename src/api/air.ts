import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { Refusal } from '#app/refusal.ts'
import { listOf } from '#contract/fields.ts'
import { airReadingRecord } from '#contract/spot.ts'
import { instant } from '#contract/time.ts'
import { insertAirReadings, selectAirReadings } from '#store/airReadings.ts'
import { answers, jsonBody, oneOrMany } from './answers.ts'
import type { ApiEnv } from './env.ts'
import type { Desk } from './parts.ts'
import { refuseInvalid } from './validate.ts'

const mostAtOnce = 10_000

const getReadings = createRoute({
  method: 'get',
  path: '/air-readings',
  request: { query: z.object({ from: instant('The first moment').optional() }) },
  responses: answers(200, 'The log of the air', z.array(airReadingRecord)),
})
const postReadings = createRoute({
  method: 'post',
  path: '/air-readings',
  request: jsonBody(oneOrMany(listOf('readings', airReadingRecord, 1, mostAtOnce))),
  responses: answers(200, 'How many were new', z.object({ addedCount: z.int() })),
})

/** Late readings and readings sent twice are fine. */
export const airRoutes = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(getReadings, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json([...(await selectAirReadings(desk.db, studio.id, c.req.valid('query').from))], 200)
    })
    .openapi(postReadings, async (c) => {
      const studio = await onlyStudio(desk.db)
      const addedCount = await insertAirReadings(desk.db, studio.id, c.req.valid('json'))
      if (addedCount === 'missing') throw new Refusal('invalid', 'One of the readings names a spot that there is not.')
      return c.json({ addedCount }, 200)
    })
