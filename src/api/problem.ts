import { HTTPException } from 'hono/http-exception'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { troubleOf } from '#store/troubles.ts'
import { type FieldProblem, Refusal, type RefusalCode } from '#app/refusal.ts'

/** The answer to a call that could not be met. @see RFC 9457, Problem Details for HTTP APIs */
export type Problem = {
  readonly type: string
  readonly title: string
  readonly status: ContentfulStatusCode
  /** A sentence for the person. */
  readonly detail: string
  /** Which fields of what was sent are wrong, and why. */
  readonly fields?: readonly FieldProblem[]
  /** Found again in the server's log. */
  readonly requestId?: string
}

const titles: Readonly<Record<number, string>> = {
  400: 'Not readable',
  403: 'Not allowed',
  404: 'Not found',
  405: 'Not possible here',
  409: 'In the way of something else',
  413: 'Too large',
  415: 'Of the wrong kind',
  422: 'Not valid',
  429: 'Too many calls',
  503: 'Not available',
}

const statusOf: Readonly<Record<RefusalCode, ContentfulStatusCode>> = {
  invalid: 422,
  'not-found': 404,
  conflict: 409,
  'in-use': 409,
  'too-large': 413,
}

/**
 * Refusals show their own sentence, and so does a disk or a database that fails. Of anything else the person learns that
 * it was not their doing, and no more.
 */
export function problemOf(error: unknown): Problem {
  if (error instanceof Refusal) return refusalProblem(error)
  if (error instanceof HTTPException && error.status < 500) {
    return problem(error.status as ContentfulStatusCode, sentenceOf(error.status))
  }
  if (isGone(error)) return problem(400, 'The connection ended before all had been sent.')
  const trouble = troubleOf(error)
  if (trouble && trouble.kind !== 'settings') return problem(503, `${trouble.sentence} What you sent was not kept.`)
  return problem(
    500,
    'Something went wrong on our side; nothing of what you sent was kept. It is in the log of the server.',
  )
}

export function problem(status: ContentfulStatusCode, detail: string): Problem {
  return { type: 'about:blank', title: titles[status] ?? 'Went wrong', status, detail }
}

/** Who called hung up in the middle of what they sent: neither our fault nor the database's. @see Node.js, `http.IncomingMessage` */
const isGone = (error: unknown): boolean =>
  error instanceof Error && error.message === 'aborted' && 'code' in error && error.code === 'ECONNRESET'

function refusalProblem({ code, message, fields }: Refusal): Problem {
  const plain = problem(statusOf[code], message)
  return fields.length > 0 ? { ...plain, fields } : plain
}

function sentenceOf(status: number): string {
  if (status === 400) return 'What was sent could not be read as JSON.'
  if (status === 415) return 'What was sent must be JSON (content-type: application/json).'
  return 'The call could not be met.'
}
