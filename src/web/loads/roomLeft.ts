/** What would still go into a load that is planned: each design asked by itself, the planned ware standing as it must. */
import { fits } from '#core/loading/fits.ts'
import type { LoadItem } from '#core/loading/types.ts'
import { loadItem } from '#core/planning/facts/pieces.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { KilnRecord } from '#contract/kiln.ts'
import type { Studio } from '../data/queries.ts'
import { weighed } from './weighed.ts'

/** More than this of one design is not asked for: "8 or more" is all that matters then. */
export const MOST_ASKED = 8

/** Designs that are fired by this firing's schedule. */
export const designsFor = ({ kind, scheduleId }: PlannedFiring, { designs }: Studio): Studio['designs'] =>
  designs.filter(
    ({ bisqueScheduleId, glazeScheduleId }) => (kind === 'bisque' ? bisqueScheduleId : glazeScheduleId) === scheduleId,
  )

/** How many more of a design find a place beside what is planned. @returns 0 to MOST_ASKED */
export function roomFor(designId: string, firing: PlannedFiring, kiln: KilnRecord, studio: Studio): number {
  const core = weighed(studio)
  const itemsOf = (id: string, key: string, count: number, mustGo: boolean): LoadItem[] => {
    const design = core.designs.find((known) => known.id === id)
    if (!design) return []
    return Array.from({ length: count }, (_, i) => loadItem(core, design, firing.kind, key, i + 1, mustGo))
  }
  const planned = firing.members.flatMap((member, i) => itemsOf(member.designId, `member-${i}`, member.count, true))
  const more = itemsOf(designId, moreKey, MOST_ASKED, false)
  const answer = fits(kiln.space, [...planned, ...more], firing.kind, 'quick')
  if (answer.answer !== 'fits') return 0
  return answer.load.levels.flatMap(({ placements }) => placements).filter(({ key }) => key.startsWith(`${moreKey}#`))
    .length
}

const moreKey = 'more'
