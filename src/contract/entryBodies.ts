/** The bodies of the logbook's entries, version 1: the closed list of kinds. */
import { coverKinds } from '#core/drying/covers.ts'
import { feltVerdicts, lossCauses } from '#core/logbook/entry.ts'
import type { EntryKind } from '#core/logbook/entry.ts'
import { cone } from './cone.ts'
import { id, listOf, oneOf, quantity, record, whole, words } from './fields.ts'
import { firingKinds } from './firingSchedule.ts'
import { instant } from './time.ts'

const runId = id('The run')
const designId = id('The design')
const glazeId = id('The glaze')
const firingId = id('The firing')
const stepId = id('The step')
const spotId = id('The spot')
const cover = oneOf('The cover', coverKinds)
const count = whole('The number of pieces', '', 1, 10_000)
const sorted = (what: string) => whole(what, '', 0, 10_000)

const piecesOfRun = { runId, count }
const waits = { cover, spotId }
const member = { runId: runId.nullable(), designId, glazeId: glazeId.nullable(), count }

const loadMember = record('a member of a load', member)
const sortedMember = record('a sorted member of a load', {
  ...member,
  good: sorted('The good ones'),
  second: sorted('The seconds'),
  refire: sorted('The ones to fire again'),
  lost: sorted('The lost ones'),
  cause: oneOf('The cause of the loss', lossCauses).nullable(),
})

const body = <Shape extends Parameters<typeof record>[1]>(shape: Shape) => record('what happened', shape)

export const entryBodies = {
  'studio-edited': body({ what: words('What was edited', 200) }),
  received: body({
    clayId: id('The clay').nullable(),
    glazeId: glazeId.nullable(),
    massKg: quantity('What came in', 'kg', 0, 1_000_000),
  }),
  begun: body({ ...piecesOfRun, designId }),
  cut: body({ ...piecesOfRun, designId, ...waits }),
  trued: body(piecesOfRun),
  moved: body({ runId, spotId }),
  covered: body({ runId, cover }),
  turned: body({ runId }),
  dampened: body({ runId }),
  weighed: body({ runId, massKg: quantity('The weight', 'kg', 0.001, 10_000) }),
  felt: body({ runId, stepId: stepId.nullable(), verdict: oneOf('How it felt', feltVerdicts) }),
  'scrap-dried': body({
    runId: runId.nullable(),
    clayId: id('The clay'),
    moistureDb: quantity('Moisture', 'kg water per kg dry clay', 0, 0.6),
  }),
  ruled: body({ runId, lengthRatio: quantity('Length now over length when cut', '', 0.7, 1.05) }),
  joined: body({ ...piecesOfRun, stepId, ...waits }),
  refined: body({ ...piecesOfRun, stepId, ...waits }),
  decorated: body({ ...piecesOfRun, stepId, ...waits }),
  split: body({ ...piecesOfRun, intoRunId: id('The new run') }),
  second: body(piecesOfRun),
  lost: body({ ...piecesOfRun, cause: oneOf('The cause of the loss', lossCauses) }),
  loaded: body({
    firingId,
    kilnId: id('The kiln'),
    firingKind: oneOf('The kind of firing', firingKinds),
    scheduleId: id('The firing schedule'),
    members: listOf('ware in the load', loadMember, 0, 2_000),
  }),
  fired: body({ firingId, candleHours: quantity('Candling', 'hours', 0, 72) }),
  'temperature-read': body({ firingId, tempC: quantity('Temperature', '°C', -40, 1_500) }),
  'cone-read': body({
    firingId,
    cone: cone('The witness cone'),
    bend: oneOf('How the cone stands', ['standing', 'soft', 'down', 'flat']),
  }),
  'meter-read': body({ firingId, energyKwh: quantity('Energy', 'kWh', 0, 100_000) }),
  opened: body({ firingId }),
  unloaded: body({ firingId, sorted: listOf('sorted ware', sortedMember, 0, 2_000) }),
  glazed: body({ runId: runId.nullable(), designId, intoRunId: id('The run it becomes'), glazeId, count }),
  finished: body(piecesOfRun),
  delivered: body({ orderId: id('The order'), designId, glazeId: glazeId.nullable(), count }),
  away: body({ makerId: id('The maker'), fromAt: instant('Away from'), toAt: instant('Away until') }),
  corrected: body({ entryId: id('The entry that was wrong') }),
} as const satisfies Record<EntryKind, unknown>
