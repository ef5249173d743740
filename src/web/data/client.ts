/** Calls to the server, typed by what its routes take and answer. */
import { hc } from 'hono/client'
import type { Api } from '#api/api.ts'
import type { Problem } from '#api/problem.ts'

export const client = hc<Api>('/').api

/** A call that the server would not meet, with its sentence for the person and the fields that are wrong. */
export class Unmet extends Error {
  readonly problem: Problem

  constructor(problem: Problem) {
    super(problem.detail)
    this.name = 'Unmet'
    this.problem = problem
  }
}

type Answer<Body> = { readonly ok: boolean; json(): Promise<Body> }

/**
 * @throws Unmet when the server refuses
 * @throws TypeError when it cannot be reached
 */
export async function answerOf<Body>(call: Promise<Answer<Body>>): Promise<Body> {
  const answer = await call
  if (answer.ok) return answer.json()
  throw new Unmet((await answer.json().catch(() => unreadable)) as Problem)
}

const unreadable = { type: 'about:blank', title: 'Went wrong', status: 500, detail: 'The server gave no clear answer.' }
