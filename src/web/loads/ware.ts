/** What stands in a load: names and sizes of its pieces, counted. */
import type { Load, Placement } from '#core/loading/types.ts'
import { sizeGoingIn } from '#core/planning/facts/pieces.ts'
import type { FiringMember, PlannedFiring } from '#core/planning/plan.ts'
import { countText } from '#words/amounts.ts'
import type { Studio } from '../data/queries.ts'
import { countsByRun, runOf } from './drawing.ts'
import type { Sized } from './side.ts'
import { weighed } from './weighed.ts'

type Members = { readonly members: readonly FiringMember[] }

export const designName = ({ designs }: Studio, designId: string): string =>
  designs.find(({ id }) => id === designId)?.name ?? designId

const designOf = ({ members }: Members, studio: Studio, key: string) => {
  const member = members.find(({ runId, designId }) => (runId ?? designId) === runOf(key))
  return studio.designs.find(({ id }) => id === member?.designId)
}

export const pieceName = (firing: Members, studio: Studio, key: string): string =>
  designOf(firing, studio, key)?.name ?? key

/** The size of every piece of a load as it stands; of each design it is reckoned once. */
export function sizesIn(firing: PlannedFiring, studio: Studio): (placement: Placement) => Sized | undefined {
  const known = new Map<string, Sized>()
  return ({ key, pose }) => {
    const design = designOf(firing, studio, key)
    if (!design) return undefined
    const { onEdge } = design.stacking
    if (pose === 'on-edge' && onEdge) return onEdge
    const size = known.get(design.id) ?? sizeGoingIn(weighed(studio), design, firing.kind)
    known.set(design.id, size)
    return size
  }
}

/** "6 Tea trays, Milk; 1 without a place": a line for each member. */
export function memberTexts({ members }: Members, load: Load | null, studio: Studio): string[] {
  const placed = load && countsByRun(load)
  return members.map(({ runId, designId, glazeId, count }) => {
    const glaze = studio.glazes.find(({ id }) => id === glazeId)?.name
    const without = placed && runId !== null ? count - (placed.get(runId) ?? 0) : 0
    return [
      `${countText(count, designName(studio, designId))}${glaze ? `, ${glaze}` : ''}`,
      ...(without > 0 ? [`${without} without a place`] : []),
    ].join('; ')
  })
}

/** Pieces on one level, counted by design. */
export function levelTexts(firing: Members, placements: readonly Placement[], studio: Studio): string[] {
  const counts = new Map<string, number>()
  for (const { key, pose } of placements) {
    const name = `${pieceName(firing, studio, key)}${pose === 'upright' ? '' : ` (${pose})`}`
    counts.set(name, (counts.get(name) ?? 0) + 1)
  }
  return [...counts].map(([name, count]) => `${count} × ${name}`)
}
