/** Clay and glaze, there when they are used; and the shelf, given away once. */
import type { Minute } from '#core/time.ts'
import { massOf } from '../facts/pieces.ts'
import type { Check, Found, Ground } from './ground.ts'
import { designOf, isFromShelf, stepOf } from './ground.ts'
import { countOf } from './stations.ts'

/** A gram of clay, and less than a drop of glaze: what sums of decimals may be off by. */
const DUST = 1e-6

export const clayIsOnHand: Check = {
  name: 'there is clay for what is cut',
  breachesOf: (ground) =>
    ground.studio.clays.flatMap(({ id }): Found[] => {
      const uses = ground.plan.tasks.flatMap((task) => {
        if (stepOf(ground, task)?.kind !== 'cut') return []
        const design = designOf(ground, ground.runs.get(task.runId)!)
        const massKg = task.count * massOf(ground.studio, design).plasticKg
        return design.clayId === id ? [{ minute: task.startMin, massKg }] : []
      })
      const short = uses.find(({ minute }) => usedBy(uses, minute) > onHandKg(ground, id, minute) + DUST)
      return short
        ? [
            {
              clay: id,
              minute: short.minute,
              neededKg: usedBy(uses, short.minute),
              onHandKg: onHandKg(ground, id, short.minute),
            },
          ]
        : []
    }),
}

type Weighed = { readonly minute: Minute; readonly massKg: number }

const usedBy = (uses: readonly Weighed[], minute: Minute): number =>
  uses.filter((use) => use.minute <= minute).reduce((sum, { massKg }) => sum + massKg, 0)

/** By the logbook, and with what is to be delivered by then. */
function onHandKg({ studio, state, designs }: Ground, clayId: string, minute: Minute): number {
  const clay = studio.clays.find(({ id }) => id === clayId)!
  const received = state.received.filter((one) => one.clayId === clayId).reduce((sum, { massKg }) => sum + massKg, 0)
  const cut = state.cut.reduce((sum, { designId, count }) => {
    const design = designs.get(designId)
    return design?.clayId === clayId ? sum + count * massOf(studio, design).plasticKg : sum
  }, 0)
  return clay.onHandKg + received - cut + usedBy(clay.deliveries, minute)
}

export const glazeIsOnHand: Check = {
  name: 'there is glaze for what is glazed',
  breachesOf: (ground) =>
    ground.studio.glazes.flatMap(({ id, onHandL }): Found[] => {
      if (onHandL === null) return []
      const neededL = ground.plan.tasks
        .filter((task) => task.glazeId === id && stepOf(ground, task)?.kind === 'glaze')
        .reduce((sum, { runId, count }) => sum + count * designOf(ground, ground.runs.get(runId)!).glazePerPieceL, 0)
      return neededL > onHandL + DUST ? [{ glaze: id, neededL, onHandL }] : []
    }),
}

export const bisqueIsOnTheShelf: Check = {
  name: 'bisque taken from the shelf stands there',
  breachesOf: ({ plan, studio, state }) =>
    studio.designs.flatMap(({ id }): Found[] => {
      const count = countOf(plan.runs.filter((run) => isFromShelf(run) && run.designId === id))
      const there = countOf(state.shelf.filter(({ designId, stage }) => designId === id && stage === 'bisque'))
      return count > there ? [{ design: id, count, there }] : []
    }),
}
