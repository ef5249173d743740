import type { Hook } from '@hono/zod-openapi'
import type { Env } from 'hono'
import { Refusal } from '#app/refusal.ts'

const shownFields = 50

/** Every route refuses what its schema does not admit, field by field, in the sentences of the contract. */
export const refuseInvalid: Hook<unknown, Env, string, unknown> = (result) => {
  if (result.success) return
  const fields = result.error.issues
    .slice(0, shownFields)
    .map(({ path, message }) => ({ path: path.join('.'), message }))
  throw new Refusal('invalid', sentenceFor(fields.length, fields[0]?.message), fields)
}

function sentenceFor(count: number, first = 'It is not what it must be'): string {
  return count === 1 ? `${first}.` : `${first}. There are ${count - 1} more like this.`
}
