import type { Hook } from '@hono/zod-openapi'
import { Refusal } from '#app/refusal.ts'
import { problemsOf } from '#contract/problems.ts'
import type { ApiEnv } from './env.ts'

/** A thing of quite another kind would have a problem in every field. */
const shownFields = 50

/** Every route refuses what its schema does not admit, field by field, in the sentences of the contract. */
export const refuseInvalid: Hook<unknown, ApiEnv, string, unknown> = (result) => {
  if (result.success) return
  const problems = problemsOf(result.error)
  const first = problems[0]?.message ?? 'What was sent is not what it must be'
  const sentence = problems.length > 1 ? `${first}, and ${problems.length - 1} more.` : `${first}.`
  throw new Refusal('invalid', sentence, problems.slice(0, shownFields))
}
