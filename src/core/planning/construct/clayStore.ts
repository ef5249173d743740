/** Clay and glaze on hand, spent as runs are placed. */
import type { Design } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { clayOf, massOf } from '../facts/pieces.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import type { Desk } from './desk.ts'

/** Takes a run's clay when it is cut; or says what is missing. What is taken later must still be there later. */
export function spendClay(desk: Desk, job: Job, minute: Minute): PlanningReason | null {
  const { studio, state } = desk.given
  const clay = clayOf(studio, job.design)
  if (!clay) return { code: 'no-clay', params: { clay: job.design.clayId, neededKg: 0, onHandKg: 0 } }
  const neededKg = massOf(studio, job.design).plasticKg * job.count
  const uses = desk.clayUses.get(clay.id) ?? []
  const spentBefore = state.cut.reduce((sum, { designId, count }) => {
    const design = desk.given.designs.get(designId)
    return design?.clayId === clay.id ? sum + count * massOf(studio, design).plasticKg : sum
  }, 0)
  const received = state.received.filter(({ clayId }) => clayId === clay.id).reduce((sum, { massKg }) => sum + massKg, 0)
  const leftAt = (at: Minute) =>
    clay.onHandKg +
    received -
    spentBefore +
    clay.deliveries.filter((delivery) => delivery.minute <= at).reduce((sum, { massKg }) => sum + massKg, 0) -
    uses.filter((use) => use.minute <= at).reduce((sum, { massKg }) => sum + massKg, 0)
  const moments = [minute, ...uses.filter((use) => use.minute > minute).map((use) => use.minute)]
  const leastKg = Math.min(...moments.map(leftAt))
  if (leastKg < neededKg) return { code: 'no-clay', params: { clay: clay.name, neededKg, onHandKg: Math.max(0, leastKg) } }
  desk.clayUses.set(clay.id, [...uses, { minute, massKg: neededKg }])
  return null
}

/** Takes the glaze for so many pieces; or says that there is not enough. Nobody counts where `onHandL` is null. */
export function spendGlaze(desk: Desk, design: Design, glazeId: string | null, count: number): PlanningReason | null {
  const glaze = desk.given.studio.glazes.find(({ id }) => id === glazeId)
  if (glazeId === null) return null
  if (!glaze) return { code: 'no-glaze', params: { glaze: glazeId } }
  if (glaze.onHandL === null) return null
  const usedL = desk.glazeUsedL.get(glaze.id) ?? 0
  const neededL = design.glazePerPieceL * count
  if (usedL + neededL > glaze.onHandL) return { code: 'no-glaze', params: { glaze: glaze.name } }
  desk.glazeUsedL.set(glaze.id, usedL + neededL)
  return null
}
