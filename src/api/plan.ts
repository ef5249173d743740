import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { type Ground, groundOf } from '#app/plan/groundOf.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { Refusal } from '#app/refusal.ts'
import { id } from '#contract/fields.ts'
import type { Plan } from '#core/planning/plan.ts'
import { latestPlan, listPlans, planById } from '#store/plans.ts'
import { answers, countIn, made } from './answers.ts'
import type { ApiEnv } from './env.ts'
import { type Desk, nowMin } from './parts.ts'
import { refuseInvalid } from './validate.ts'

const plan = made<Plan>(
  'Plan',
  'What is to happen, who does it, when, under which cover, in which load; minutes since 1970, UTC',
)

const progress = z
  .object({ doing: z.enum(['nothing', 'first plan', 'better plan']), made: z.int(), of: z.int() })
  .openapi('PlanningProgress')

const newest = z.object({
  plan: plan.nullable().openapi({ description: 'null before the first plan is made' }),
  logPosition: z.int().openapi({ description: 'Of the newest entry; behind it, the plan is being made anew' }),
  progress,
})
const getPlan = createRoute({ method: 'get', path: '/plan', responses: answers(200, 'The plan', newest) })
const planAgain = createRoute({
  method: 'post',
  path: '/plan/again',
  responses: answers(200, 'A plan will follow', progress),
})
const stopPlanning = createRoute({
  method: 'post',
  path: '/plan/stop',
  responses: answers(200, 'The plan stays as it is', progress),
})
const getGround = createRoute({
  method: 'get',
  path: '/plan/ground',
  responses: answers(
    200,
    'What the plan takes for given',
    made<Ground>('Ground', 'Hours of the makers by the minute, and the air of every spot by the day'),
  ),
})

const line = z.object({ id: z.string(), logPosition: z.int(), madeAt: z.string() })
const getPlans = createRoute({
  method: 'get',
  path: '/plans',
  request: { query: z.object({ limit: countIn('The number of plans', 1, 200).default(20) }) },
  responses: answers(200, 'Plans as they were made, newest first', z.array(line)),
})
const getOldPlan = createRoute({
  method: 'get',
  path: '/plans/{id}',
  request: { params: z.object({ id: id() }) },
  responses: answers(200, 'A plan as it was made', plan),
})

export const planRoutes = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(getPlan, async (c) => {
      const { id: studioId, logPosition } = await onlyStudio(desk.db)
      const latest = (await latestPlan(desk.db, studioId)) ?? null
      return c.json({ plan: latest, logPosition, progress: desk.planner.progressOf(studioId) }, 200)
    })
    .openapi(getGround, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json(await groundOf(desk.db, studio.id, nowMin(desk)), 200)
    })
    .openapi(planAgain, async (c) => {
      const studio = await onlyStudio(desk.db)
      desk.planner.ask(studio.id)
      return c.json(desk.planner.progressOf(studio.id), 200)
    })
    .openapi(stopPlanning, async (c) => {
      const studio = await onlyStudio(desk.db)
      desk.planner.stop(studio.id)
      return c.json(desk.planner.progressOf(studio.id), 200)
    })
    .openapi(getPlans, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json([...(await listPlans(desk.db, studio.id, c.req.valid('query').limit))], 200)
    })
    .openapi(getOldPlan, async (c) => {
      const studio = await onlyStudio(desk.db)
      const old = await planById(desk.db, studio.id, c.req.valid('param').id)
      if (!old) throw new Refusal('not-found', 'There is no such plan any more.')
      return c.json(old, 200)
    })
