import type { Context, MiddlewareHandler } from 'hono'
import type { ApiEnv } from './env.ts'
import { problem } from './problem.ts'

const changesNothing = new Set(['GET', 'HEAD', 'OPTIONS'])

/**
 * Keeps other web sites out of a server that has no accounts yet, because only this machine can reach it. A browser on
 * this machine can be talked into calling it: under a name of the attacker's that was made to point here (so the name
 * is checked), or by a form on a foreign page (so the origin is checked). Programs send neither origin nor fetch
 * metadata, and pass.
 * @param hostNames what the server may be called, without port
 */
export function ownPagesOnly(hostNames: readonly string[]): MiddlewareHandler<ApiEnv> {
  const known = new Set(hostNames)
  return async (c, next) => {
    const host = c.req.header('host') ?? new URL(c.req.url).host
    if (!known.has(hostNameOf(host)))
      return refuse(c, 'This server does not answer to that name. Call it by 127.0.0.1 or localhost.')
    if (!changesNothing.has(c.req.method) && isForeign(c, host))
      return refuse(c, 'Pages of other sites may not change anything here.')
    return next()
  }
}

/** The name in `name:port`, lower case; a bracketed IPv6 address keeps its brackets. */
function hostNameOf(host: string): string {
  return /^(\[[^\]]*\]|[^:]*)(:\d*)?$/.exec(host.toLowerCase())?.[1] ?? ''
}

/** @see Fetch Standard, `Origin` and https://www.w3.org/TR/fetch-metadata/ (`Sec-Fetch-Site`) */
function isForeign(c: Context<ApiEnv>, host: string): boolean {
  const origin = c.req.header('origin')
  if (origin !== undefined) return !URL.canParse(origin) || new URL(origin).host !== host.toLowerCase()
  const site = c.req.header('sec-fetch-site')
  return site !== undefined && site !== 'same-origin' && site !== 'none'
}

function refuse(c: Context<ApiEnv>, detail: string): Response {
  const found = { ...problem(403, detail), requestId: c.get('requestId') }
  return c.json(found, 403, { 'content-type': 'application/problem+json' })
}
