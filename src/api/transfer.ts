import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { beginStudio } from '#app/studio/beginStudio.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { backUp } from '#app/transfer/backUp.ts'
import { exportStudio } from '#app/transfer/exportStudio.ts'
import { importStudio } from '#app/transfer/importStudio.ts'
import { type Beginning, beginning } from '#contract/beginning.ts'
import { oneOf } from '#contract/fields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { answers, jsonBody, made } from './answers.ts'
import { importBody } from './bodyLimits.ts'
import type { ApiEnv } from './env.ts'
import { announce, type Desk, nowAt } from './parts.ts'
import { refuseInvalid } from './validate.ts'

const file = made<StudioFile>('StudioFile', 'The whole studio; its JSON Schema is published with the program')
const getFile = createRoute({ method: 'get', path: '/export', responses: answers(200, 'The whole studio', file) })

const outcome = z.object({ studioId: z.string() })
const postFile = createRoute({
  method: 'post',
  path: '/import',
  request: {
    query: z.object({ replace: oneOf('replace', ['yes', 'no']).default('no') }),
    // Not `application/json`: the body would be parsed before the reader can say where it stops being JSON.
    body: { content: { '*/*': { schema: file } } },
  },
  middleware: importBody,
  responses: answers(200, 'The studio is in', outcome),
})
const postExample = createRoute({
  method: 'post',
  path: '/example',
  responses: answers(200, 'The example is in', outcome),
})

const answersGiven: z.ZodType<Beginning> = beginning
const postBegin = createRoute({
  method: 'post',
  path: '/begin',
  request: jsonBody(answersGiven),
  responses: answers(200, 'A studio of one’s own is in', outcome),
})

const postBackup = createRoute({
  method: 'post',
  path: '/backup',
  responses: answers(200, 'A backup is written', z.object({ file: z.string() })),
})

/** The whole studio as one file, out and in; and the example and a first studio of one's own, which come in the same way. */
export function transferRoutes(desk: Desk) {
  async function takeIn(studio: StudioFile, mayReplace: boolean): Promise<{ studioId: string }> {
    await importStudio(desk.db, studio, mayReplace)
    await announce(desk, studio.studio.id)
    return { studioId: studio.studio.id }
  }
  return new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
    .openapi(getFile, async (c) => {
      const studio = await onlyStudio(desk.db)
      const text = await exportStudio(desk.db, studio.id, nowAt(desk))
      c.header('content-disposition', `attachment; filename="studio-${nowAt(desk).slice(0, 10)}.json"`)
      return c.body(text, 200, { 'content-type': 'application/json' }) as never
    })
    .openapi(postFile, async (c) => {
      const studio = readStudioFile(await c.req.text())
      const mayReplace = c.req.valid('query').replace === 'yes'
      if (mayReplace) await desk.backUp?.()
      return c.json(await takeIn(studio, mayReplace), 200)
    })
    .openapi(postBackup, async (c) => c.json({ file: await backUp(desk) }, 200))
    .openapi(postBegin, async (c) => c.json(await takeIn(beginStudio(c.req.valid('json'), nowAt(desk)), false), 200))
    .openapi(postExample, async (c) => c.json(await takeIn(desk.exampleNow(), false), 200))
}
