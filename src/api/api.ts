import { OpenAPIHono } from '@hono/zod-openapi'
import { compress } from 'hono/compress'
import { listStudios } from '#store/studios.ts'
import type { Db } from '#store/db.ts'
import { faultText } from '#store/troubles.ts'
import { airRoutes } from './air.ts'
import { usualBody } from './bodyLimits.ts'
import type { ApiEnv } from './env.ts'
import { eventRoutes } from './events.ts'
import { healthRoutes } from './health.ts'
import { logRoutes } from './log.ts'
import { createMetrics } from './metrics.ts'
import { ownPagesOnly } from './ownPagesOnly.ts'
import type { ApiParts, Desk } from './parts.ts'
import { planRoutes } from './plan.ts'
import { type Problem, problem, problemOf } from './problem.ts'
import { questionRoutes } from './questions.ts'
import { recordRoutes } from './records.ts'
import { requestLog } from './requestLog.ts'
import { securityHeaders } from './securityHeaders.ts'
import { stateRoutes } from './state.ts'
import { studioRoutes } from './studio.ts'
import { transferRoutes } from './transfer.ts'

/** Calls whose body may be larger than usual have a limit of their own. */
const largeBodies = new Set(['/api/import', '/api/log'])

/** Everything that can be asked of the server, pages apart. */
export function createApi(db: Db, parts: ApiParts) {
  const desk: Desk = { db, ...parts }
  const app = new OpenAPIHono<ApiEnv>()
  const metrics = createMetrics(parts.clockMs)
  app.use(requestLog(parts.log, parts.clockMs))
  app.use(metrics.count)
  app.use(securityHeaders)
  app.use(ownPagesOnly(parts.hostNames))
  app.use(compress())
  app.use('/api/*', (c, next) => (largeBodies.has(c.req.path) ? next() : usualBody(c, next)))
  app.use('/api/*', async (c, next) => {
    c.header('cache-control', 'no-store')
    return next()
  })
  app.onError((error, c) => {
    const found = { ...problemOf(error), requestId: c.get('requestId') }
    if (found.status >= 500) parts.log({ event: 'fault', requestId: found.requestId, error: faultText(error) })
    return answer(found)
  })
  app.notFound((c) => {
    const methods = methodsAt(app, c.req.path)
    if (methods.length === 0)
      return answer({ ...problem(404, 'There is nothing at this address.'), requestId: c.get('requestId') })
    const refused = problem(405, `This address can be asked by ${methods.join(' or ')}, not by ${c.req.method}.`)
    return answer({ ...refused, requestId: c.get('requestId') }, { allow: methods.join(', ') })
  })
  app.get('/metrics', metrics.show)
  app.doc31('/api/openapi.json', {
    openapi: '3.1.0',
    info: { title: 'Wareboard', version: '1', description: 'What the app itself uses, and the command line.' },
  })
  return app
    .route(
      '/',
      healthRoutes(() => isReady(db)),
    )
    .route('/api', resources(desk))
}

/** For the typed client: `hc<Api>('/')`. */
export type Api = ReturnType<typeof createApi>

const resources = (desk: Desk) =>
  new OpenAPIHono<ApiEnv>()
    .route('/', studioRoutes(desk))
    .route('/', recordRoutes(desk))
    .route('/', airRoutes(desk))
    .route('/', logRoutes(desk))
    .route('/', planRoutes(desk))
    .route('/', stateRoutes(desk))
    .route('/', questionRoutes(desk))
    .route('/', transferRoutes(desk))
    .route(
      '/',
      eventRoutes(desk.happenings, () => studioIdNow(desk)),
    )

/** A database that is away is like no studio to a screen: its stream ends, and it comes back by itself. */
async function studioIdNow({ db, log }: Desk): Promise<string | undefined> {
  try {
    return (await listStudios(db))[0]?.id
  } catch (error) {
    log({ event: 'fault', error: faultText(error) })
    return undefined
  }
}

async function isReady(db: Db): Promise<boolean> {
  try {
    await listStudios(db)
    return true
  } catch {
    return false
  }
}

const answer = (found: Problem, headers: Readonly<Record<string, string>> = {}): Response =>
  Response.json(found, { status: found.status, headers: { 'content-type': 'application/problem+json', ...headers } })

/** By which methods an address of the description can be asked; none if it is not in it. @see RFC 9110, 10.2.1 */
function methodsAt({ openAPIRegistry }: OpenAPIHono<ApiEnv>, address: string): string[] {
  const found = openAPIRegistry.definitions.flatMap((definition) => {
    if (definition.type !== 'route') return []
    const { method, path } = definition.route
    const pattern = path.replaceAll(/\{[^}]+\}/g, '[^/]+')
    return new RegExp(`^${pattern}$`).test(address) ? [method.toUpperCase()] : []
  })
  return [...new Set(found.includes('GET') ? [...found, 'HEAD'] : found)]
}
