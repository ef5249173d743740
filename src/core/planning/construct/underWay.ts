/** Kilns that are loaded, lit or cooling now: what is still to be done at them, and when their ware comes out. */
import { withCandling } from '#core/firing/candling.ts'
import { firingTimes } from '#core/firing/times.ts'
import type { FiringKind, FiringSchedule, FiringTimes } from '#core/firing/types.ts'
import type { FiringState } from '#core/logbook/state.ts'
import type { Kiln } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { fillOf } from '../facts/fill.ts'
import { fullLoadOf } from '../facts/pieces.ts'
import type { FiringMember, KilnTask, PlannedFiring } from '../plan.ts'
import { book, earliestSlot, type Slot } from './diary.ts'
import type { Desk } from './desk.ts'
import { AT_KILN_MIN } from './kilnSlots.ts'
import { take } from './room.ts'

/** Candling of a firing under way is held at this; only its length matters here. Common practice, no source. */
const CANDLING_C = 85
const CANDLING_RATE_C_PER_H = 60

export type OutOfKiln = {
  readonly runId: string
  readonly kind: FiringKind
  readonly glazeId: string | null
  readonly count: number
  readonly emptyMin: Minute
}

/** Books what is left to do at each loaded kiln; gives the ware that comes out. */
export function placeFiringsUnderWay(desk: Desk): readonly OutOfKiln[] {
  const { studio, state } = desk.given
  return state.firings
    .filter(({ unloadedMin }) => unloadedMin === null)
    .flatMap((firing) => {
      const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)
      const schedule = studio.firingSchedules.find(({ id }) => id === firing.scheduleId)
      const members = membersNow(desk, firing)
      if (!kiln || !schedule) return []
      const emptyMin = placeOne(desk, firing, kiln, schedule, members)
      if (emptyMin === null) return []
      return members.map(({ runId, glazeId, count }) => ({
        runId: runId!,
        kind: firing.kind,
        glazeId,
        count,
        emptyMin,
      }))
    })
}

/** What stands in it now: losses noticed since are taken off. */
function membersNow(desk: Desk, firing: FiringState): FiringMember[] {
  return desk.given.state.runs
    .filter(({ firingId, count }) => firingId === firing.id && count > 0)
    .map(({ id, designId, glazeId, count }) => ({ runId: id, designId, glazeId, count }))
}

function placeOne(
  desk: Desk,
  firing: FiringState,
  kiln: Kiln,
  schedule: FiringSchedule,
  members: readonly FiringMember[],
): Minute | null {
  const { nowMin, horizonMin } = desk.given
  const times = timesOf(firing, kiln, schedule)
  if (!times) return null
  const hands: { kind: KilnTask['kind']; slot: Slot }[] = []
  const startMin = firing.firedMin ?? lightNow(desk, times, hands)
  if (startMin === null) return null
  const shutOffMin = startMin + times.durationMin
  const switchUpsMin = times.switchUpsMin.map((at) => startMin + at)
  for (const [i, at] of [...switchUpsMin, shutOffMin].entries()) {
    const there = at >= nowMin ? earliestSlot(desk.diary, 'kiln watch', 'kiln', AT_KILN_MIN, at, at) : null
    if (there) hands.push({ kind: i < switchUpsMin.length ? 'switch-up' : 'shut-off', slot: there })
  }
  let openMin = firing.openedMin
  if (openMin === null) {
    const open = earliestSlot(
      desk.diary,
      'kiln watch',
      'kiln',
      AT_KILN_MIN,
      Math.max(nowMin, startMin + times.openMin),
      horizonMin,
    )
    if (!open) return null
    hands.push({ kind: 'open', slot: open })
    openMin = open.startMin
  }
  const coolMin = Math.max(nowMin, startMin + times.unloadMin, openMin + (times.unloadMin - times.openMin))
  const unload = earliestSlot(desk.diary, 'making', 'kiln', kiln.unloadMin, coolMin, horizonMin)
  if (!unload) return null
  hands.push({ kind: 'unload', slot: unload })
  for (const [index, { kind, slot }] of hands.entries()) {
    book(desk.diary, slot)
    desk.kilnTasks.push({ id: `${firing.id}/${kind}:${index}`, kind, firingId: firing.id, ...slot })
  }
  take(desk.kilns.kilns.get(kiln.id)!, 1, firing.loadedMin, unload.endMin)
  take(desk.kilns.supplies.get(kiln.supplyId)!, 1, startMin, shutOffMin)
  const pieces = members.flatMap(({ designId, count }) => {
    const design = desk.given.designs.get(designId)
    return design ? [{ size: desk.given.sizeOf(design, firing.kind), count }] : []
  })
  desk.firings.push(
    plannedFrom(
      firing,
      members,
      times,
      { startMin, switchUpsMin, shutOffMin, openMin, unload },
      Math.min(1, fillOf(kiln.space, firing.kind, pieces)),
    ),
  )
  return unload.endMin
}

function timesOf(firing: FiringState, kiln: Kiln, schedule: FiringSchedule): FiringTimes | null {
  const candling = { rateCPerH: CANDLING_RATE_C_PER_H, targetC: CANDLING_C, holdMin: firing.candleHours * MIN_PER_HOUR }
  const candled = firing.candleHours > 0 ? withCandling(schedule, { segment: candling, reason: 'doubtful' }) : schedule
  const outcome = firingTimes(candled, kiln.firing, fullLoadOf(kiln, firing.kind))
  return outcome.kind === 'times' ? outcome.times : null
}

/** The soonest lighting of a kiln that stands loaded, with somebody there at its shut-off. */
function lightNow(desk: Desk, times: FiringTimes, hands: { kind: KilnTask['kind']; slot: Slot }[]): Minute | null {
  const { nowMin, horizonMin } = desk.given
  for (let from = nowMin; from < horizonMin;) {
    const light = earliestSlot(desk.diary, 'kiln watch', 'kiln', AT_KILN_MIN, from, horizonMin)
    if (!light) return null
    from = light.startMin + 15
    const moments = [...times.switchUpsMin, times.durationMin].map((at) => light.startMin + at)
    if (moments.some((at) => !earliestSlot(desk.diary, 'kiln watch', 'kiln', AT_KILN_MIN, at, at))) continue
    hands.push({ kind: 'start', slot: light })
    return light.startMin
  }
  return null
}

const plannedFrom = (
  firing: FiringState,
  members: readonly FiringMember[],
  times: FiringTimes,
  moments: {
    readonly startMin: Minute
    readonly switchUpsMin: readonly Minute[]
    readonly shutOffMin: Minute
    readonly openMin: Minute
    readonly unload: Slot
  },
  fill: number,
): PlannedFiring => ({
  id: firing.id,
  kilnId: firing.kilnId,
  kind: firing.kind,
  scheduleId: firing.scheduleId,
  underWay: true,
  members,
  candleHours: firing.candleHours,
  loadMin: firing.loadedMin,
  startMin: moments.startMin,
  switchUpsMin: moments.switchUpsMin,
  shutOffMin: moments.shutOffMin,
  openMin: moments.openMin,
  unloadMin: moments.unload.startMin,
  emptyMin: moments.unload.endMin,
  energyKwh: firing.energyKwh ?? times.curve.at(-1)!.usedKwh,
  load: null,
  fill,
})
