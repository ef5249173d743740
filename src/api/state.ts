import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { stateNow } from '#app/log/stateNow.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { Refusal } from '#app/refusal.ts'
import { id, oneOf } from '#contract/fields.ts'
import type { FiringState, LogState, RunState } from '#core/logbook/state.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import { latestPlan } from '#store/plans.ts'
import { answers, made } from './answers.ts'
import type { ApiEnv } from './env.ts'
import type { Desk } from './parts.ts'
import { refuseInvalid } from './validate.ts'

const state = made<LogState>('LogState', 'What the logbook says stands where; minutes since 1970, UTC')
const run = made<RunState>('RunState', 'Pieces of one design started together, and how far they are')
const firing = made<FiringState>('FiringState', 'A load and its firing, as logged')
const plannedFiring = made<PlannedFiring>('PlannedFiring', 'A load and its firing, as planned')

const getState = createRoute({
  method: 'get',
  path: '/state',
  responses: answers(200, 'What stands where', z.object({ logPosition: z.int(), state })),
})
const getRuns = createRoute({
  method: 'get',
  path: '/runs',
  request: { query: z.object({ all: oneOf('all', ['yes', 'no']).default('no') }) },
  responses: answers(200, 'Runs of which something is left; with `all=yes` every run that ever was', z.array(run)),
})
const getRun = createRoute({
  method: 'get',
  path: '/runs/{id}',
  request: { params: z.object({ id: id('The name of the run') }) },
  responses: answers(200, 'The run', run),
})
const getLoads = createRoute({
  method: 'get',
  path: '/loads',
  responses: answers(
    200,
    'Loads that were, are and are to be',
    z.object({ logged: z.array(firing), planned: z.array(plannedFiring) }),
  ),
})

export const stateRoutes = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(getState, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json(await stateNow(desk.db, studio.id), 200)
    })
    .openapi(getRuns, async (c) => {
      const studio = await onlyStudio(desk.db)
      const { runs } = (await stateNow(desk.db, studio.id)).state
      const isAll = c.req.valid('query').all === 'yes'
      return c.json(isAll ? [...runs] : runs.filter(({ stage }) => stage !== 'gone'), 200)
    })
    .openapi(getRun, async (c) => {
      const studio = await onlyStudio(desk.db)
      const { runs } = (await stateNow(desk.db, studio.id)).state
      const found = runs.find(({ id }) => id === c.req.valid('param').id)
      if (!found) throw new Refusal('not-found', 'There is no such run.')
      return c.json(found, 200)
    })
    .openapi(getLoads, async (c) => {
      const studio = await onlyStudio(desk.db)
      const { firings } = (await stateNow(desk.db, studio.id)).state
      const plan = await latestPlan(desk.db, studio.id)
      return c.json({ logged: [...firings], planned: [...(plan?.firings ?? [])] }, 200)
    })
