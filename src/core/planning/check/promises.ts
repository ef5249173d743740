/** What is said to be ready, is: packed by then, of what runs bring and the shelf holds. */
import type { Minute } from '#core/time.ts'
import type { OrderPromise, PlannedRun } from '../plan.ts'
import type { Check, Found, Ground } from './ground.ts'
import { countOf, readyBy } from './stations.ts'

export const onTimeIsOnTime: Check = {
  name: 'what is said to be on time is packed by then',
  breachesOf: (ground) =>
    ground.plan.promises.flatMap((promise): Found[] => {
      const { packedByMin } = ground.studio.orders.find(({ id }) => id === promise.orderId)!
      const fromShelf = fromShelfFor(ground, promise)
      const ready = fromRuns(ground, promise, packedByMin) + (ground.nowMin <= packedByMin ? fromShelf : 0)
      return promise.onTime > ready
        ? [{ order: promise.orderId, line: promise.orderLineId, onTime: promise.onTime, ready, packedByMin }]
        : []
    }),
}

/** Taken together, by design: nothing is promised that neither a run brings to its end nor the shelf has. */
export const nothingPromisedTwice: Check = {
  name: 'no piece is promised twice',
  breachesOf: (ground) =>
    ground.studio.designs.flatMap(({ id }): Found[] => {
      const promised = ground.plan.promises.filter(({ designId }) => designId === id)
      const count = promised.reduce((sum, { onTime, late }) => sum + onTime + late, 0)
      const runs = ground.plan.runs.filter(({ designId }) => designId === id)
      const shelf = ground.state.shelf.filter(({ designId, stage }) => designId === id && stage === 'finished')
      const there = countOf(shelf) + runs.reduce((sum, run) => sum + readyBy(ground, run, Number.POSITIVE_INFINITY), 0)
      const glazes = new Map<string, number>()
      for (const promise of promised) {
        const glazeId = lineGlaze(ground, promise)
        if (glazeId !== null) glazes.set(glazeId, (glazes.get(glazeId) ?? 0) + fromShelfFor(ground, promise))
      }
      return [
        ...(count > there ? [{ design: id, glaze: '', count, there }] : []),
        ...[...glazes]
          .map(([glaze, asked]) => ({
            design: id,
            glaze,
            count: asked,
            there: countOf(shelf.filter(({ glazeId }) => glazeId === glaze)),
          }))
          .filter((one) => one.count > one.there),
      ]
    }),
}

/** Pieces allotted to the line that their runs have ready by a minute. */
const fromRuns = (ground: Ground, promise: OrderPromise, minute: Minute): number =>
  ground.plan.runs.reduce((sum, run) => sum + Math.min(allottedTo(run, promise), readyBy(ground, run, minute)), 0)

/** What of a promise runs do not bring must stand on the shelf. */
const fromShelfFor = (ground: Ground, promise: OrderPromise): number =>
  Math.max(0, promise.onTime + promise.late - fromRuns(ground, promise, Number.POSITIVE_INFINITY))

const allottedTo = ({ allotments }: PlannedRun, { orderId, orderLineId }: OrderPromise): number =>
  countOf(allotments.filter((allotment) => allotment.orderId === orderId && allotment.orderLineId === orderLineId))

const lineGlaze = ({ studio }: Ground, { orderId, orderLineId }: OrderPromise): string | null =>
  studio.orders.find(({ id }) => id === orderId)?.lines.find(({ id }) => id === orderLineId)?.glazeId ?? null
