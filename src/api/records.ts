import { createRoute, OpenAPIHono, z } from '@hono/zod-openapi'
import { called } from '#app/records/called.ts'
import { keepRecord } from '#app/records/keepRecord.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { removeRecord } from '#app/records/removeRecord.ts'
import { Refusal } from '#app/refusal.ts'
import { clayRecord, glazeRecord } from '#contract/clay.ts'
import { designRecord, mouldRecord } from '#contract/design.ts'
import { id } from '#contract/fields.ts'
import { firingScheduleRecord } from '#contract/firingSchedule.ts'
import { kilnRecord, supplyRecord } from '#contract/kiln.ts'
import { busyTimeRecord, hoursRecord, makerRecord } from '#contract/maker.ts'
import { orderRecord, pinRecord, stockRecord } from '#contract/order.ts'
import { spotRecord } from '#contract/spot.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import type { RecordName } from '#store/recordTables.ts'
import { selectRecords } from '#store/records.ts'
import { answers, jsonBody } from './answers.ts'
import type { ApiEnv } from './env.ts'
import { announce, type Desk, nowAt } from './parts.ts'
import { refuseInvalid } from './validate.ts'

/** Everything that a potter sets down one by one: where it is called, and what it must be. */
const kinds = {
  makers: { path: '/makers', record: makerRecord },
  hours: { path: '/hours', record: hoursRecord },
  busyTimes: { path: '/busy-times', record: busyTimeRecord },
  spots: { path: '/spots', record: spotRecord },
  clays: { path: '/clays', record: clayRecord },
  glazes: { path: '/glazes', record: glazeRecord },
  supplies: { path: '/supplies', record: supplyRecord },
  kilns: { path: '/kilns', record: kilnRecord },
  moulds: { path: '/moulds', record: mouldRecord },
  firingSchedules: { path: '/firing-schedules', record: firingScheduleRecord },
  designs: { path: '/designs', record: designRecord },
  orders: { path: '/orders', record: orderRecord },
  stock: { path: '/stock', record: stockRecord },
  pins: { path: '/pins', record: pinRecord },
} as const satisfies { readonly [Name in RecordName]: { readonly path: string; readonly record: z.ZodType } }

type PathOf<Name extends RecordName> = (typeof kinds)[Name]['path']
type Call<Input, Output> = { input: Input; output: Output; outputFormat: 'json'; status: 200 }

/** Told to the compiler, which would need half a million types to find it out from the schemas of the records. */
type RecordCalls = {
  [Name in RecordName as PathOf<Name>]: { $get: Call<object, StudioTables[Name]> }
} & {
  [Name in RecordName as `${PathOf<Name>}/:id`]: {
    $put: Call<{ param: { id: string }; json: StudioTables[Name][number] }, { outcome: 'added' | 'changed' }>
    $delete: Call<{ param: { id: string } }, { outcome: 'removed' }>
  }
}

export function recordRoutes(desk: Desk): OpenAPIHono<ApiEnv, RecordCalls> {
  const routes = new OpenAPIHono<ApiEnv>({ defaultHook: refuseInvalid })
  for (const name of Object.keys(kinds) as RecordName[]) addRoutes(routes, desk, name)
  return routes as OpenAPIHono<ApiEnv, RecordCalls>
}

/** Ids are made by whoever makes the record, so that sending one again changes nothing. */
function addRoutes(routes: OpenAPIHono<ApiEnv>, desk: Desk, name: RecordName): void {
  const { path } = kinds[name]
  const record: z.ZodType<StudioTables[RecordName][number]> = kinds[name].record
  const one = called[name]
  const params = z.object({ id: id() })
  const listAll = createRoute({ method: 'get', path, responses: answers(200, `Every ${one}`, z.array(record)) })
  const putOne = createRoute({
    method: 'put',
    path: `${path}/{id}`,
    request: { params, ...jsonBody(record) },
    responses: answers(200, `The ${one} is kept`, z.object({ outcome: z.enum(['added', 'changed']) })),
  })
  const deleteOne = createRoute({
    method: 'delete',
    path: `${path}/{id}`,
    request: { params },
    responses: answers(200, `The ${one} is gone`, z.object({ outcome: z.literal('removed') })),
  })
  routes
    .openapi(listAll, async (c) => {
      const studio = await onlyStudio(desk.db)
      return c.json([...(await selectRecords(desk.db, studio.id, name))], 200)
    })
    .openapi(putOne, async (c) => {
      const studio = await onlyStudio(desk.db)
      const sent = c.req.valid('json')
      if (sent.id !== c.req.valid('param').id)
        throw new Refusal('invalid', `The id of the ${one} differs from the address.`)
      const outcome = await keepRecord(desk.db, studio.id, name, sent, nowAt(desk))
      await announce(desk, studio.id)
      return c.json({ outcome }, 200)
    })
    .openapi(deleteOne, async (c) => {
      const studio = await onlyStudio(desk.db)
      await removeRecord(desk.db, studio.id, name, c.req.valid('param').id, nowAt(desk))
      await announce(desk, studio.id)
      return c.json({ outcome: 'removed' as const }, 200)
    })
}
