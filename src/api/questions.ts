import { createRoute, OpenAPIHono } from '@hono/zod-openapi'
import type { HonestDate } from '#app/questions/honestDate.ts'
import { promiseDate } from '#app/questions/promiseDate.ts'
import { type WhatIf, whatIf } from '#app/questions/whatIf.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { promiseQuestion, whatIfQuestion } from '#contract/whatIf.ts'
import { answers, jsonBody, made } from './answers.ts'
import type { ApiEnv } from './env.ts'
import { type Desk, nowMin } from './parts.ts'
import { refuseInvalid } from './validate.ts'

const postWhatIf = createRoute({
  method: 'post',
  path: '/what-if',
  request: jsonBody(whatIfQuestion),
  responses: answers(
    200,
    'What would come of it',
    made<WhatIf>('WhatIf', 'The plan as it would be, and the promises that differ'),
  ),
})
const postPromise = createRoute({
  method: 'post',
  path: '/promise',
  request: jsonBody(promiseQuestion),
  responses: answers(
    200,
    'The earliest honest date',
    made<HonestDate>('HonestDate', 'A date that can be kept without harm to other orders'),
  ),
})

/** Questions to the plan; nothing is changed by asking. */
export const questionRoutes = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(postWhatIf, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json(await whatIf(desk.db, desk.planner, studio.id, nowMin(desk), c.req.valid('json').changes), 200)
    })
    .openapi(postPromise, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json(await promiseDate(desk.db, desk.planner, studio.id, nowMin(desk), c.req.valid('json').order), 200)
    })
