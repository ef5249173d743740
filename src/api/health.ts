import { Hono } from 'hono'
import type { ApiEnv } from './env.ts'

/** `/healthz`: the process answers. `/readyz`: so does its database. For whoever watches over the server. */
export function healthRoutes(isReady: () => Promise<boolean>) {
  return new Hono<ApiEnv>()
    .get('/healthz', (c) => c.json({ status: 'ok' }))
    .get('/readyz', async (c) => {
      const ready = await isReady()
      return c.json({ status: ready ? 'ok' : 'no database' }, ready ? 200 : 503)
    })
}
