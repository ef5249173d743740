/** Ware waiting for a kiln: pieces of one run that want one kind of firing. */
import { bisqueFor, firingDifference, glazeFor } from '#core/firing/sharedSchedule.ts'
import type { FiringKind, FiringSchedule } from '#core/firing/types.ts'
import type { Design, Studio } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'

export type Lot = {
  readonly runId: string
  readonly design: Design
  readonly kind: FiringKind
  /** Which glaze it bears; null for bisque and unglazed ware. */
  readonly glazeId: string | null
  readonly count: number
  /** Pieces of it that orders wait for; a lot without any goes along when a kiln has room, and never lights one. */
  readonly neededCount: number
  /** It does not wait for a fuller kiln. */
  readonly isWantedSoon: boolean
  readonly readyMin: Minute
  /** The latest loading that keeps the date; later is late, not impossible. */
  readonly latestLoadMin: Minute
  /** Its boards are kept until then; it must be loaded before. Infinity for fired ware. */
  readonly boardsUntilMin: Minute
  /** By draw: when dry at the thickest spot; empty for fired ware. */
  readonly dryByDrawMin: readonly number[]
}

/** Time allowed for what comes after a firing, until ware is packed. Our choice; common practice, no source. */
const GLAZING_DAYS = 2
const FINISHING_DAYS = 1
/** From loading to unloading, over what heating and cooling take: waiting for hands. Our choice. */
const WAITING_FOR_HANDS_MIN = 14 * MIN_PER_HOUR

/** The schedule that a design's ware asks for; undefined if the studio does not have it. */
export const scheduleOf = (studio: Studio, design: Design, kind: FiringKind): FiringSchedule | undefined =>
  studio.firingSchedules.find(({ id }) => id === (kind === 'bisque' ? design.bisqueScheduleId : design.glazeScheduleId))

/**
 * The latest loading that leaves time for all that follows.
 * @param busyMin of a firing of each kind: from lighting until bare hands can unload
 */
export function latestLoad(
  kind: FiringKind,
  dueMin: Minute,
  busyMin: Readonly<Record<FiringKind, number>>,
  glazeDryHours: number,
): Minute {
  const glazeLoadMin = dueMin - busyMin.glaze - WAITING_FOR_HANDS_MIN - FINISHING_DAYS * MIN_PER_DAY
  if (kind === 'glaze') return glazeLoadMin
  return (
    glazeLoadMin - glazeDryHours * MIN_PER_HOUR - GLAZING_DAYS * MIN_PER_DAY - busyMin.bisque - WAITING_FOR_HANDS_MIN
  )
}

/** Share of the common draws in which the lot is dry by then. 1 for fired ware. */
export function oddsDry({ dryByDrawMin }: Lot, minute: Minute): number {
  if (dryByDrawMin.length === 0) return 1
  return dryByDrawMin.filter((dryMin) => dryMin <= minute).length / dryByDrawMin.length
}

export type LotSchedule = {
  readonly schedule: FiringSchedule
  readonly scheduleId: string
  readonly candleHours: number
}

/** Whether two lots may share a firing. */
export function mayShare(studio: Studio, a: Lot, b: Lot): boolean {
  const first = scheduleOf(studio, a.design, a.kind)
  const second = scheduleOf(studio, b.design, b.kind)
  return first !== undefined && second !== undefined && firingDifference(first, second) === undefined
}

/** The schedule by which these lots are fired together when loaded at `loadMin`; undefined if they cannot be. */
export function sharedScheduleOf(studio: Studio, lots: readonly Lot[], loadMin: Minute): LotSchedule | undefined {
  const members = lots.flatMap((lot) => {
    const schedule = scheduleOf(studio, lot.design, lot.kind)
    return schedule ? [{ schedule, thickestMm: lot.design.thickestMm, oddsDry: oddsDry(lot, loadMin) }] : []
  })
  if (members.length < lots.length || members.length === 0) return undefined
  const shared =
    lots[0]!.kind === 'bisque'
      ? bisqueFor(members, studio.rules.altitudeM)
      : glazeFor(members.map(({ schedule }) => schedule))
  if (shared.kind === 'impossible') return undefined
  const { schedule, candling } = shared
  return { schedule, scheduleId: schedule.id ?? '', candleHours: (candling?.segment.holdMin ?? 0) / MIN_PER_HOUR }
}
