/** One entry of the logbook on the wire. A well-formed entry is always taken: what it refers to may since be gone. */
import { z } from 'zod'
import type { EntryKind } from '#core/logbook/entry.ts'
import { entryBodies } from './entryBodies.ts'
import { id, kindsOf, mustBe, record, whole } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { instant } from './time.ts'

type Bodies = typeof entryBodies

export const entryKinds = Object.keys(entryBodies) as readonly EntryKind[]

const entryOf = <Kind extends EntryKind>(kind: Kind) =>
  record('an entry', {
    id: id('The id of the entry'),
    version: z.literal(1, { error: mustBe('The version of an entry', '1') }),
    kind: z.literal(kind),
    happenedAt: instant('When it happened'),
    roughMin: whole('How rough the time is', 'minutes', 0, 10_080),
    deviceId: id('The device'),
    deviceSeq: whole('The count of the device', '', 0, Number.MAX_SAFE_INTEGER),
    by: id('Who did it').nullable(),
    body: entryBodies[kind] as Bodies[Kind],
    hint: record('the planned step', { planId: id('The plan'), stepId: id('The planned step') }).nullable(),
  })

type EntrySchemas = { readonly [Kind in EntryKind]: ReturnType<typeof entryOf<Kind>> }[EntryKind]

export const entryRecord = kindsOf(
  'An entry',
  'kind',
  entryKinds,
  entryKinds.map(entryOf) as unknown as readonly [EntrySchemas, ...EntrySchemas[]],
)

export type EntryRecord = Frozen<z.infer<typeof entryRecord>>
