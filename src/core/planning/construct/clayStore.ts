/** Clay and glaze on hand, spent as runs are placed. */
import type { Design } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { clayOf, massOf } from '../facts/pieces.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import type { Desk } from './desk.ts'

/** What is missing if a run were cut then; what is taken later must still be there later. Null: enough. */
export function clayTrouble(desk: Desk, job: Job, minute: Minute): PlanningReason | null {
  const { studio } = desk.given
  const clay = clayOf(studio, job.design)
  if (!clay) return { code: 'no-clay', params: { clay: job.design.clayId, neededKg: 0, onHandKg: 0 } }
  const neededKg = massOf(studio, job.design).plasticKg * job.count
  const uses = desk.clayUses.get(clay.id) ?? []
  const now = clay.onHandKg + loggedKg(desk, clay.id)
  const leftAt = (at: Minute) =>
    now +
    sumOf(clay.deliveries.filter((delivery) => delivery.minute <= at)) -
    sumOf(uses.filter((use) => use.minute <= at))
  const moments = [minute, ...uses.filter((use) => use.minute > minute).map((use) => use.minute)]
  const leastKg = Math.min(...moments.map(leftAt))
  return leastKg < neededKg
    ? { code: 'no-clay', params: { clay: clay.name, neededKg, onHandKg: Math.max(0, leastKg) } }
    : null
}

/** Takes a run's clay at its cut. */
export function spendClay(desk: Desk, { design, count }: Job, minute: Minute): void {
  const uses = desk.clayUses.get(design.clayId) ?? []
  desk.clayUses.set(design.clayId, [...uses, { minute, massKg: massOf(desk.given.studio, design).plasticKg * count }])
}

/** What the logbook has brought in of a clay, less what it has cut. */
function loggedKg({ given: { studio, state, designs } }: Desk, clayId: string): number {
  const cutKg = state.cut.reduce((sum, { designId, count }) => {
    const design = designs.get(designId)
    return design?.clayId === clayId ? sum + count * massOf(studio, design).plasticKg : sum
  }, 0)
  return sumOf(state.received.filter((received) => received.clayId === clayId)) - cutKg
}

const sumOf = (masses: readonly { readonly massKg: number }[]): number =>
  masses.reduce((sum, { massKg }) => sum + massKg, 0)

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
