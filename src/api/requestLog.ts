import { randomUUID } from 'node:crypto'
import type { MiddlewareHandler } from 'hono'
import type { ApiEnv } from './env.ts'

/** One line of the server's log. Paths without their queries and no bodies: nothing personal. */
export type LogLine = { readonly event: string; readonly requestId?: string; readonly [detail: string]: unknown }

/** Gives every request an id, answers with it, and writes one line when the answer is made. */
export function requestLog(log: (line: LogLine) => void, clockMs: () => number): MiddlewareHandler<ApiEnv> {
  return async (c, next) => {
    const startedMs = clockMs()
    const requestId = randomUUID()
    c.set('requestId', requestId)
    await next()
    c.header('x-request-id', requestId)
    const { method, path } = c.req
    log({ event: 'request', requestId, method, path, status: c.res.status, ms: Math.round(clockMs() - startedMs) })
  }
}
