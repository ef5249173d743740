/** No piece made or lost on paper: the plan's runs and loads are the logbook's, and what is promised adds up. */
import type { RunState } from '#core/logbook/state.ts'
import type { Order, OrderLine } from '#core/studio/studio.ts'
import type { PlannedFiring, PlannedRun } from '../plan.ts'
import type { Check, Found, Ground } from './ground.ts'
import { membersOf } from './ground.ts'
import { countOf } from './stations.ts'

export const runsAreTheLogbooks: Check = {
  name: 'runs under way are as the logbook has them',
  breachesOf: (ground) => {
    const alive = ground.state.runs.filter(
      ({ stage, designId }) => stage !== 'gone' && stage !== 'begun' && ground.designs.has(designId),
    )
    return [
      ...alive.filter(({ id }) => !ground.runs.has(id)).map(({ id, count }) => ({ run: id, what: 'missing', count })),
      ...ground.plan.runs.flatMap((run) => differences(ground, run)),
    ]
  },
}

function differences({ logRuns }: Ground, run: PlannedRun): Found[] {
  const log = logRuns.get(run.id)
  if (!run.underWay) return log ? [{ run: run.id, what: 'id taken', count: run.count }] : []
  if (!log || log.stage === 'gone') return [{ run: run.id, what: 'unknown', count: run.count }]
  // Only begun, nothing is cut: its size is still the plan's to choose.
  const begun = log.stage === 'begun'
  const odd = [
    ...(log.designId === run.designId ? [] : ['design']),
    ...(begun || log.count === run.count ? [] : ['count']),
    ...(begun || isFired(log) || log.cutMin === run.cutMin ? [] : ['cut']),
  ]
  return odd.map((what) => ({ run: run.id, what, count: run.count }))
}

const isFired = ({ stage }: RunState): boolean => stage !== 'clay' && stage !== 'drying'

export const firingsAreTheLogbooks: Check = {
  name: 'firings under way are as the logbook has them',
  breachesOf: (ground) => {
    const inKilns = ground.state.firings.filter(({ unloadedMin }) => unloadedMin === null)
    const planned = ground.plan.firings
    return [
      // A kiln that nobody can empty may stand as it is, but then nothing else goes in.
      ...inKilns
        .filter(({ id, kilnId }) => !ground.firings.has(id) && planned.some((firing) => firing.kilnId === kilnId))
        .map(({ id }) => ({ firing: id, what: 'missing' })),
      ...planned.flatMap((firing) => firingDifferences(ground, firing)),
    ]
  },
}

function firingDifferences({ logFirings, state }: Ground, firing: PlannedFiring): Found[] {
  const log = logFirings.get(firing.id)
  if (!firing.underWay) return log ? [{ firing: firing.id, what: 'id taken' }] : []
  if (!log || log.unloadedMin !== null) return [{ firing: firing.id, what: 'unknown' }]
  const inside = state.runs.filter(({ firingId, count }) => firingId === firing.id && count > 0)
  const sameWare =
    inside.every(({ id, count }) => membersOf(firing, id) === count) && countOf(inside) === countOf(firing.members)
  const odd = [
    ...(log.kilnId === firing.kilnId ? [] : ['kiln']),
    ...(log.kind === firing.kind && log.scheduleId === firing.scheduleId ? [] : ['schedule']),
    ...(sameWare ? [] : ['members']),
    ...(log.loadedMin === firing.loadMin ? [] : ['loaded']),
    ...(log.firedMin === null || log.firedMin === firing.startMin ? [] : ['fired']),
    ...(log.openedMin === null || log.openedMin === firing.openMin ? [] : ['opened']),
  ]
  return odd.map((what) => ({ firing: firing.id, what }))
}

export const membersAreOfTheirRuns: Check = {
  name: 'a load takes no more of a run than there is, and nothing else for it',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run): Found[] =>
      (['bisque', 'glaze'] as const).flatMap((kind) => {
        const firings = ground.plan.firings.filter((firing) => firing.kind === kind)
        const count = firings.reduce((sum, firing) => sum + membersOf(firing, run.id), 0)
        const strange = firings.some(({ members }) =>
          members.some(({ runId, designId }) => runId === run.id && designId !== run.designId),
        )
        return count > run.count || strange ? [{ run: run.id, kind, count, there: run.count }] : []
      }),
    ),
}

export const allotmentsAddUp: Check = {
  name: 'a run is allotted to who asked for it, and not twice',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run): Found[] => {
      const allotted = countOf(run.allotments)
      const strange = run.allotments.filter(({ orderId, orderLineId, glazeId }) => {
        const line = orderLineId === null ? undefined : lineOf(ground, orderId, orderLineId)
        return line !== undefined && (line.designId !== run.designId || (line.glazeId ?? glazeId) !== glazeId)
      })
      return [
        ...(allotted > run.count ? [{ run: run.id, count: allotted, there: run.count }] : []),
        ...strange.map(({ orderLineId, count }) => ({ run: run.id, line: orderLineId!, count, there: 0 })),
      ]
    }),
}

const lineOf = ({ studio }: Ground, orderId: string | null, lineId: string): OrderLine | undefined =>
  studio.orders.find(({ id }) => id === orderId)?.lines.find(({ id }) => id === lineId)

/** What is ordered = what is placed + what is left out by name, line by line. */
export const promisesAddUp: Check = {
  name: 'every piece ordered is placed or left out by name',
  breachesOf: (ground) =>
    ground.studio.orders.flatMap((order) =>
      order.lines.flatMap((line): Found[] => {
        if (!ground.designs.has(line.designId)) return []
        const promise = ground.plan.promises.find(
          ({ orderId, orderLineId }) => orderId === order.id && orderLineId === line.id,
        )
        const leftOut = ground.plan.leftOut.filter(
          ({ orderId, orderLineId }) => orderId === order.id && orderLineId === line.id,
        )
        const wanted = line.count - deliveredTo(ground, order, line)
        const placed = promise ? promise.onTime + promise.late : 0
        const adds =
          promise?.wanted === wanted && promise.designId === line.designId && placed + countOf(leftOut) === wanted
        return adds ? [] : [{ order: order.id, line: line.id, wanted, placed, leftOut: countOf(leftOut) }]
      }),
    ),
}

/** What was delivered of an order goes to the line that asked for its glaze, then to those that left it open, in their order. */
function deliveredTo({ state }: Ground, order: Order, wanted: OrderLine): number {
  const given = new Map<string, number>()
  const give = (line: OrderLine, most: number): number => {
    const count = Math.min(most, line.count - (given.get(line.id) ?? 0))
    given.set(line.id, (given.get(line.id) ?? 0) + count)
    return count
  }
  for (const { orderId, designId, glazeId, count } of state.delivered) {
    if (orderId !== order.id) continue
    const suiting = order.lines.filter((line) => line.designId === designId && (line.glazeId ?? glazeId) === glazeId)
    const byGlaze = suiting.toSorted((a, b) => Number(a.glazeId === null) - Number(b.glazeId === null))
    byGlaze.reduce((left, line) => left - give(line, left), count)
  }
  return given.get(wanted.id) ?? 0
}
