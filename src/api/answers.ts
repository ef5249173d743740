import { z } from '@hono/zod-openapi'
import { mustBe } from '#contract/fields.ts'

/** @see RFC 9457 */
const problemSchema = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    fields: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
    requestId: z.string().optional(),
  })
  .openapi('Problem')

/** How a call may end, for the description of the api: as it should, or with a problem. */
export const answers = <const Status extends 200 | 201, Schema extends z.ZodType>(
  status: Status,
  description: string,
  schema: Schema,
) =>
  ({
    [status]: { description, content: { 'application/json': { schema } } },
    default: { description: 'A problem', content: { 'application/problem+json': { schema: problemSchema } } },
  }) as { readonly [Key in Status]: { description: string; content: { 'application/json': { schema: Schema } } } }

export const jsonBody = <Schema extends z.ZodType>(schema: Schema) =>
  ({ body: { required: true, content: { 'application/json': { schema } } } }) as const

/** A count in a query, where everything is text. */
export function countIn(what: string, least: number, most: number) {
  const error = mustBe(what, `a whole number from ${least} to ${most}`)
  const count = z.int({ error }).min(least, { error }).max(most, { error })
  return z.preprocess((text) => (typeof text === 'string' && /^\d{1,15}$/.test(text) ? Number(text) : text), count)
}

/** Data that the core makes and nobody sends: described, but not checked again on its way out. */
export const made = <Shape>(name: string, description: string) =>
  z.custom<Shape>().openapi(name, { type: 'object', description })

/** A list, or a single thing, which is then a list of one. */
export const oneOrMany = <Member extends z.ZodType>(list: z.ZodArray<Member>) =>
  z.preprocess((sent) => (Array.isArray(sent) ? sent : [sent]), list)
