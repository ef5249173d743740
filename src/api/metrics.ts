import type { Context, MiddlewareHandler } from 'hono'
import type { ApiEnv } from './env.ts'

const textFormat = 'application/openmetrics-text; version=1.0.0; charset=utf-8'

/**
 * How many calls were answered, how, and in what time, since the start.
 * @see OpenMetrics 1.0 (https://prometheus.io/docs/specs/om/open_metrics_spec/)
 */
export function createMetrics(clockMs: () => number) {
  const countOf = new Map<string, number>()
  let totalMs = 0
  const count: MiddlewareHandler<ApiEnv> = async (c, next) => {
    const startedMs = clockMs()
    await next()
    totalMs += clockMs() - startedMs
    const kind = `${Math.floor(c.res.status / 100)}xx`
    countOf.set(kind, (countOf.get(kind) ?? 0) + 1)
  }
  const show = (c: Context<ApiEnv>): Response => {
    const lines = [
      '# TYPE wareboard_requests counter',
      ...[...countOf]
        .toSorted(([a], [b]) => (a < b ? -1 : 1))
        .map(([kind, value]) => `wareboard_requests_total{status="${kind}"} ${value}`),
      '# TYPE wareboard_request_seconds counter',
      '# UNIT wareboard_request_seconds seconds',
      `wareboard_request_seconds_total ${totalMs / 1_000}`,
      '# TYPE wareboard_memory_bytes gauge',
      '# UNIT wareboard_memory_bytes bytes',
      `wareboard_memory_bytes ${process.memoryUsage.rss()}`,
      '# EOF',
    ]
    return c.body(`${lines.join('\n')}\n`, 200, { 'content-type': textFormat })
  }
  return { count, show }
}
