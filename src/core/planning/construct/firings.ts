/**
 * Gathers ware into firings. The lot whose date presses most is next; among the loadings that still keep its date the
 * one with the fullest kiln is taken, sooner if the kiln is full enough; whatever else is ready by then fills it up.
 */
import { firingTimes } from '#core/firing/times.ts'
import type { FiringLoad, FiringSchedule, FiringTimes } from '#core/firing/types.ts'
import { fits } from '#core/loading/fits.ts'
import type { Load } from '#core/loading/types.ts'
import type { Kiln } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { fillOf } from '../facts/fill.ts'
import { firingLoadOf, fullLoadOf, loadItem } from '../facts/pieces.ts'
import type { FiringMember, PlannedFiring } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import { book, isFree, type Slot } from './diary.ts'
import type { Desk } from './desk.ts'
import { firingSlot, type KilnSlot, loadingSlots } from './kilnSlots.ts'
import { itemsOf, placedByLot, renamed } from './loadNames.ts'
import { type Lot, type LotSchedule, mayShare, sharedScheduleOf } from './lots.ts'
import { take } from './room.ts'

/** Loadings tried for each kiln and firing. Our choice. */
const LOADINGS_TRIED = 8
/** Up to this `fillOf` the packer can be counted on to find room. Our choice, by trial. */
const FULL = 0.93
/** Share of its slack that ware wanted soon waits for company. Our choice. */
const SOON_PATIENCE = 0.1
/** When no loading keeps the date, the next ones up to this much later are tried. */
const LATE_DAYS = 14

export type FiredLot = { readonly lot: Lot; readonly count: number; readonly firing: PlannedFiring }

type Candidate = {
  readonly kiln: Kiln
  readonly slot: KilnSlot
  readonly times: FiringTimes
  readonly schedule: FiringSchedule
  readonly scheduleId: string
  readonly candleHours: number
  readonly pool: readonly Lot[]
  readonly fill: number
}

/** A firing of today or tomorrow as it was shown, if its ware is there and its kiln still free; empty if not. */
export function fireAsShown(desk: Desk, shown: PlannedFiring, waiting: readonly Lot[]): readonly FiredLot[] {
  const kiln = desk.given.studio.kilns.find(({ id }) => id === shown.kilnId)
  const loader = desk.given.planningCase.basePlan?.kilnTasks.find(
    ({ firingId, kind }) => firingId === shown.id && kind === 'load',
  )
  const lots = waiting.filter(
    (lot) => lot.kind === shown.kind && lot.readyMin <= shown.loadMin && lot.boardsUntilMin > shown.loadMin,
  )
  const pool = lots.filter((lot) =>
    shown.members.some(({ runId, glazeId }) => runId === lot.runId && glazeId === lot.glazeId),
  )
  if (!kiln || !loader || pool.length === 0 || pool.some((lot) => !mayShare(desk.given.studio, pool[0]!, lot)))
    return []
  const loading = { makerId: loader.makerId, startMin: loader.startMin, endMin: loader.startMin + kiln.loadMin }
  if (!isFree(desk.diary, 'making', loading)) return []
  const timed = timesFor(desk, kiln, pool, loading.startMin)
  const slot = timed && firingSlot(desk.diary, desk.kilns, kiln, timed.times, loading, desk.given.horizonMin)
  if (!slot) return []
  const fired = fire(desk, pool[0]!, {
    kiln,
    slot,
    ...timed,
    pool,
    fill: fillOf(kiln.space, shown.kind, sized(desk, shown.kind, pool)),
  })
  return 'code' in fired ? [] : fired
}

/** One more firing for `lot` and what can go with it, booked; or why there is none. */
export function fireLot(desk: Desk, lot: Lot, waiting: readonly Lot[]): readonly FiredLot[] | PlanningReason {
  const { studio } = desk.given
  const kilns = studio.kilns.filter((kiln) => kiln.fires.includes(lot.kind))
  if (kilns.length === 0) return { code: 'no-kiln-fires', params: { schedule: lot.kind } }
  const bigEnough = kilns.filter((kiln) => {
    const alone = fits(kiln.space, [loadItem(studio, lot.design, lot.kind, lot.runId, 1, true)], lot.kind, 'quick')
    return alone.answer === 'fits'
  })
  if (bigEnough.length === 0) return { code: 'too-large-for-every-kiln', params: { design: lot.design.name } }
  const others = waiting.filter((other) => other !== lot && other.kind === lot.kind && mayShare(studio, lot, other))
  const candidate = chosenCandidate(desk, lot, others, bigEnough)
  if (!candidate)
    return { code: 'kilns-full', params: { untilMin: Math.min(lot.boardsUntilMin, desk.given.horizonMin) } }
  return fire(desk, lot, candidate)
}

function chosenCandidate(desk: Desk, lot: Lot, others: readonly Lot[], kilns: readonly Kiln[]): Candidate | null {
  const { horizonMin } = desk.given
  const lastMin = Math.min(lot.boardsUntilMin - 1, horizonMin)
  const slackMin = Math.max(0, lot.latestLoadMin - lot.readyMin)
  const patience = lot.isWantedSoon ? SOON_PATIENCE : desk.leaning.patience[lot.kind]
  const patientUntilMin = Math.min(lot.readyMin + Math.floor(patience * slackMin), lastMin)
  const patient = kilns.flatMap((kiln) => candidatesOf(desk, lot, others, kiln, patientUntilMin, LOADINGS_TRIED))
  const inTime = patient.filter(({ slot }) => slot.loadMin <= patientUntilMin)
  if (inTime.length > 0) return best(desk, inTime)
  const soon = kilns.flatMap((kiln) =>
    candidatesOf(
      desk,
      lot,
      others,
      kiln,
      Math.min(Math.max(lot.latestLoadMin, lot.readyMin + LATE_DAYS * MIN_PER_DAY), lastMin),
      1,
    ),
  )
  return soon.toSorted((a, b) => a.slot.emptyMin - b.slot.emptyMin || (a.kiln.id < b.kiln.id ? -1 : 1))[0] ?? null
}

/** The first that is full enough; else the fullest. Between equals the one that is emptied first. */
function best(desk: Desk, candidates: readonly Candidate[]): Candidate {
  const { wantedFill } = desk.given.studio.rules
  const ranked = candidates.toSorted((a, b) => a.slot.emptyMin - b.slot.emptyMin || (a.kiln.id < b.kiln.id ? -1 : 1))
  const fullEnough = ranked.find(({ fill }) => fill >= wantedFill)
  return fullEnough ?? ranked.reduce((fullest, next) => (next.fill > fullest.fill + 1e-9 ? next : fullest))
}

/** The first `most` loadings of this kiln that make a firing. */
function candidatesOf(
  desk: Desk,
  lot: Lot,
  others: readonly Lot[],
  kiln: Kiln,
  latestMin: Minute,
  most: number,
): Candidate[] {
  const candidates: Candidate[] = []
  for (const loading of loadingSlots(desk.diary, desk.kilns, kiln, lot.readyMin, latestMin)) {
    const candidate = candidateAt(desk, lot, others, kiln, loading)
    if (candidate) candidates.push(candidate)
    if (candidates.length === most) break
  }
  return candidates
}

function candidateAt(desk: Desk, lot: Lot, others: readonly Lot[], kiln: Kiln, loading: Slot): Candidate | null {
  const loadMin = loading.startMin
  const ready = others.filter((other) => other.readyMin <= loadMin && other.boardsUntilMin > loadMin)
  // Alone it is never slower than in company: where even that has no slot, none needs to be sought for the pool.
  const alone = timesFor(desk, kiln, [lot], loadMin)
  if (!alone || !firingSlot(desk.diary, desk.kilns, kiln, alone.times, loading, desk.given.horizonMin)) return null
  const pool = pooled(desk, kiln, lot, ready, loadMin)
  const timed = timesFor(desk, kiln, pool, loadMin)
  if (!timed) return null
  const slot = firingSlot(desk.diary, desk.kilns, kiln, timed.times, loading, desk.given.horizonMin)
  if (!slot) return null
  return { kiln, slot, ...timed, pool, fill: fillOf(kiln.space, lot.kind, sized(desk, lot.kind, pool)) }
}

/**
 * The pressing lot and whatever else goes in whole, by urgency; lots are not torn apart, or their last pieces would light
 * a kiln of their own. Lots without any date fill what is left.
 */
function pooled(desk: Desk, kiln: Kiln, lot: Lot, ready: readonly Lot[], loadMin: Minute): Lot[] {
  const byUrgency = ready
    .filter((other) => !wouldMissItsDate(other, loadMin))
    .toSorted(
      (a, b) =>
        Number(b.neededCount > 0) - Number(a.neededCount > 0) ||
        a.latestLoadMin - b.latestLoadMin ||
        (a.runId < b.runId ? -1 : 1),
    )
  const pool = [lot]
  for (const other of byUrgency) {
    const more = [...pool, other]
    if (fillOf(kiln.space, lot.kind, sized(desk, lot.kind, more)) <= FULL) pool.push(other)
  }
  return pool
}

/** Ware that could still keep its date does not wait with ware that comes too late. */
const wouldMissItsDate = ({ neededCount, readyMin, latestLoadMin }: Lot, loadMin: Minute): boolean =>
  neededCount > 0 && readyMin < latestLoadMin && latestLoadMin < loadMin

const sized = (desk: Desk, kind: Lot['kind'], lots: readonly Lot[]) =>
  lots.map(({ design, count }) => ({ size: desk.given.sizeOf(design, kind), count }))

/** How long this kiln takes with a full load by the slowest schedule of the pool: never shorter than the truth. */
function timesFor(
  desk: Desk,
  kiln: Kiln,
  pool: readonly Lot[],
  loadMin: Minute,
): (LotSchedule & { readonly times: FiringTimes }) | null {
  const shared = sharedScheduleOf(desk.given.studio, pool, loadMin)
  if (!shared) return null
  const key = `${kiln.id} ${pool[0]!.kind} ${JSON.stringify(shared.schedule)}`
  let times = desk.given.firingTimes.get(key)
  if (times === undefined) {
    const outcome = firingTimes(shared.schedule, kiln.firing, fullLoadOf(kiln, pool[0]!.kind))
    times = outcome.kind === 'times' ? outcome.times : null
    desk.given.firingTimes.set(key, times)
  }
  return times && { ...shared, times }
}

function fire(desk: Desk, lot: Lot, candidate: Candidate): readonly FiredLot[] | PlanningReason {
  const { items, lotOf } = itemsOf(desk, candidate.pool)
  const answer = fits(candidate.kiln.space, items, lot.kind, 'quick')
  const load = answer.answer === 'fits' ? answer.load : null
  const placed = load ? placedByLot(load, lotOf) : new Map<Lot, number>()
  if (!load || !placed.get(lot)) return { code: 'too-large-for-every-kiln', params: { design: lot.design.name } }
  const { load: named, members } = renamed(load, lotOf, placed)
  const firing = firingOf(desk, candidate, named, members)
  bookFiring(desk, candidate, firing)
  return [...placed].map(([placedLot, count]) => ({ lot: placedLot, count, firing }))
}

function firingOf(desk: Desk, candidate: Candidate, load: Load, members: readonly FiringMember[]): PlannedFiring {
  const { kiln, slot, schedule, scheduleId, candleHours, pool } = candidate
  const kind = pool[0]!.kind
  const pieces = members.map(({ designId, count }) => ({
    size: desk.given.sizeOf(desk.given.designs.get(designId)!, kind),
    count,
  }))
  return {
    id: `${kiln.id}:${slot.loadMin}`,
    kilnId: kiln.id,
    kind,
    scheduleId,
    underWay: false,
    members,
    candleHours,
    loadMin: slot.loadMin,
    startMin: slot.startMin,
    switchUpsMin: slot.switchUpsMin,
    shutOffMin: slot.shutOffMin,
    openMin: slot.openMin,
    unloadMin: slot.unloadMin,
    emptyMin: slot.emptyMin,
    energyKwh: energyOf(schedule, kiln, firingLoadOf(desk.given.studio, kiln, load, members, kind)),
    load,
    fill: Math.min(1, fillOf(kiln.space, kind, pieces)),
  }
}

/** What the firing draws with what really stands in it. */
function energyOf(schedule: FiringSchedule, kiln: Kiln, load: FiringLoad): number {
  const outcome = firingTimes(schedule, kiln.firing, load)
  return outcome.kind === 'times' ? outcome.times.curve.at(-1)!.usedKwh : 0
}

function bookFiring(desk: Desk, { kiln, slot }: Candidate, firing: PlannedFiring): void {
  for (const [index, { kind, slot: hands }] of slot.hands.entries()) {
    book(desk.diary, hands)
    desk.kilnTasks.push({ id: `${firing.id}/${kind}:${index}`, kind, firingId: firing.id, ...hands })
  }
  take(desk.kilns.kilns.get(kiln.id)!, 1, slot.loadMin, slot.emptyMin)
  take(desk.kilns.supplies.get(kiln.supplyId)!, 1, slot.startMin, slot.shutOffMin)
  desk.firings.push(firing)
}
