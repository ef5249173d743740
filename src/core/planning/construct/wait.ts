/**
 * One wait of a run: from where the clay is, under which covers and with which look-ins it comes to its next step, and
 * when hands are there for it. A look-in that decides parks whatever is ready under plastic, so that fast and slow futures
 * both meet the step: without it most overnight windows would be empty.
 */
import type { CoverKind, CoverSpan, Firmness, StepBand } from '#core/drying/types.ts'
import type { DesignStep } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import { drawsFor } from '../facts/commonDraws.ts'
import type { StepWindow } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import { type Change, type Covering, coveringsToTry, spansOf } from './covering.ts'
import { candidateSlots, type Diary, earliestSlot, type Slot } from './diary.ts'
import {
  type ClayPath,
  type DrawSpans,
  heldBy,
  LOOK_AHEAD_MIN,
  pathOn,
  spansUnder,
  type Ware,
  type Wares,
} from './wares.ts'

/** What a wait is looked for: by whom, for what, and between what. */
export type WaitRequest = {
  readonly wares: Wares
  readonly ware: Ware
  readonly diary: Diary
  readonly from: ClayPath
  /** Draws in which all steps so far were held. */
  readonly held: readonly boolean[]
  readonly spotId: string
  /** Covers that can be set at once, and all that the studio has. */
  readonly start: readonly CoverKind[]
  readonly covers: readonly CoverKind[]
  /** Whether hands that begin the wait can tell ready ware: not those that just cut it from a fresh slab. */
  readonly decidesAtOnce: boolean
  readonly step: DesignStep
  readonly band: StepBand
  readonly partIndexes: readonly number[]
  readonly durationMin: number
  readonly odds: number
  readonly lookInMin: number
  /** Slot to be tried first (a plan already shown), or alone (a pin). */
  readonly wanted: { readonly slot: Slot; readonly only: boolean } | null
  readonly isOpenTo: (slot: Slot) => boolean
}

/** A look-in of a wait: what it does to ware that is ready, and to ware that is not. */
export type LookIn = { readonly slot: Slot; readonly parks: boolean; readonly cover: CoverKind | null }

export type Wait = {
  readonly covering: Covering
  /** In rising time; only those before the step. */
  readonly lookIns: readonly LookIn[]
  /** Whether the hands that begin the wait park what is ready already. */
  readonly parksAtOnce: boolean
  readonly parkWhen: { readonly firmness: Firmness; readonly cover: CoverKind } | null
  readonly slot: Slot
  readonly window: StepWindow
  readonly path: ClayPath
  readonly held: readonly boolean[]
  /** The look-in at which most of the held draws are parked; null: it waits on as the covering says. */
  readonly parkedAtMin: Minute | null
}

/** Under what ready clay is parked: the closest cover that the studio has. */
const parkingCovers: readonly CoverKind[] = ['sealed', 'tucked', 'loose']
/** A look-in weighs as much as being done this much later; one that is made anyway, for the night, less. Our choice. */
const LOOK_IN_WEIGHS_MIN = 2 * MIN_PER_HOUR
const CHANGE_WEIGHS_MIN = MIN_PER_HOUR / 2
const MOST_LOOK_INS = 5
/** Parked ware dries on a little: so much of its window is kept for that. Our choice. */
const PARKED_SHARE = 0.2
const SLOTS_TRIED = 6
const LOOK_IN_EVERY_MIN = 30
/** A wait without extra look-ins that ends this soon is taken as it is. */
const SOON_MIN = 30 * MIN_PER_HOUR

/** The best wait that holds the step's window at the odds wanted; or why there is none. */
export function findWait(request: WaitRequest): Wait | PlanningReason {
  const { diary, start, covers, from, lookInMin } = request
  let best: Wait | null = null
  let reason: PlanningReason | null = null
  for (const covering of coveringsToTry(
    diary,
    start,
    covers,
    isReady(request),
    from.minute,
    from.minute + LOOK_AHEAD_MIN,
    lookInMin,
  )) {
    const found = waitUnder(request, covering)
    if ('code' in found) {
      // A window that is missed says more than one that never opens under a close cover.
      if (reason === null || reason.code === 'window-never-opens') reason = found
      continue
    }
    if (best === null || weightOf(found) < weightOf(best)) best = found
    if (extraLookIns(best) === 0 && best.slot.startMin - from.minute <= SOON_MIN) break
  }
  return best ?? reason ?? { code: 'window-never-opens', params: { step: request.step.name, part: '' } }
}

const extraLookIns = ({ lookIns }: Wait): number => lookIns.filter(({ cover }) => cover === null).length
const weightOf = (wait: Wait): number =>
  wait.slot.endMin +
  extraLookIns(wait) * LOOK_IN_WEIGHS_MIN +
  (wait.lookIns.length - extraLookIns(wait)) * CHANGE_WEIGHS_MIN

/** Whether the clay is firm enough already in most futures. */
function isReady({ wares, ware, from, spotId, band, partIndexes, held }: WaitRequest): boolean {
  const { openMin } = spansUnder(
    wares,
    ware,
    from,
    [{ fromMin: from.minute, cover: 'tucked', spotId }],
    band,
    partIndexes,
  )
  return openMin.filter((open, d) => held[d] && open <= from.minute).length * 2 > held.filter(Boolean).length
}

function waitUnder(request: WaitRequest, covering: Covering): Wait | PlanningReason {
  const { wares, ware, from, spotId, step, band, partIndexes, held, odds, diary, durationMin, wanted } = request
  const spans = spansUnder(wares, ware, from, spansOf(covering, from.minute, spotId), band, partIndexes)
  const need = drawsFor(odds)
  const firstMin = spans.openMin.filter((_, d) => held[d]).toSorted((a, b) => a - b)[need - 1]
  if (firstMin === undefined || !Number.isFinite(firstMin)) {
    return { code: 'window-never-opens', params: { step: step.name, part: spans.closingPart } }
  }
  const lastMin = from.minute + LOOK_AHEAD_MIN
  const free = wanted?.only
    ? []
    : candidateSlots(diary, 'making', step.needs, durationMin, firstMin, lastMin, SLOTS_TRIED)
  for (const slot of [...(wanted ? [wanted.slot] : []), ...free]) {
    if (slot.startMin < firstMin || !request.isOpenTo(slot)) continue
    const visits = lookInsFor(request, covering, spans, slot, need)
    const wait = visits && waitWith(request, covering, spans, slot, visits, need)
    if (wait) return wait
  }
  const closes = spans.closeMin.filter((close, d) => held[d] && Number.isFinite(close)).toSorted((a, b) => a - b)
  const closeMin = closes[Math.max(0, closes.length - need)] ?? lastMin
  return { code: 'window-closes-while-nobody-there', params: { step: step.name, part: spans.closingPart, closeMin } }
}

type Visits = Pick<Wait, 'lookIns' | 'parksAtOnce'>

/**
 * The fewest look-ins that park every future in time, beside those at which covers are changed anyway: futures by their
 * closing, each not yet met takes the latest look-in before it closes. Null if too many futures cannot be met.
 */
function lookInsFor(
  request: WaitRequest,
  covering: Covering,
  spans: DrawSpans,
  slot: Slot,
  need: number,
): Visits | null {
  const { held, diary, lookInMin, from } = request
  const firm = spans.openMin.map((open, d) => held[d] === true && open <= slot.startMin)
  let mayMiss = firm.filter(Boolean).length - need
  if (mayMiss < 0) return null
  const early = spans.closeMin
    .map((closeMin, d) => ({ openMin: spans.openMin[d]!, closeMin, d }))
    .filter(({ closeMin, d }) => firm[d] && closeMin < slot.endMin)
    .toSorted((a, b) => a.closeMin - b.closeMin || a.d - b.d)
  const anyway = covering.changes.filter((change) => change.slot.endMin <= slot.startMin)
  const extra: Slot[] = []
  const meets = ({ startMin, endMin }: Slot, openMin: number, closeMin: number) =>
    startMin >= openMin && endMin <= closeMin
  for (const { openMin, closeMin } of early) {
    if (request.decidesAtOnce && openMin <= from.minute && closeMin >= from.minute) continue
    if (
      anyway.some((change) => meets(change.slot, openMin, closeMin)) ||
      extra.some((chosen) => meets(chosen, openMin, closeMin))
    )
      continue
    const kept = Math.floor(closeMin - PARKED_SHARE * (closeMin - openMin))
    const last = Math.min(kept, slot.startMin) - lookInMin
    const lookIn = latestLookIn(diary, lookInMin, Math.max(openMin, from.minute), last, [
      ...anyway.map((change) => change.slot),
      ...extra,
      slot,
    ])
    if (lookIn && extra.length < MOST_LOOK_INS) extra.push(lookIn)
    else if (--mayMiss < 0) return null
  }
  const parks = early.length > 0
  const lookIns = [
    ...anyway.map((change: Change): LookIn => ({ slot: change.slot, parks, cover: change.cover })),
    ...extra.map((chosen): LookIn => ({ slot: chosen, parks: true, cover: null })),
  ]
  const readyNow = spans.openMin.some((openMin, d) => held[d] && openMin <= from.minute)
  return {
    lookIns: lookIns.toSorted((a, b) => a.slot.startMin - b.slot.startMin),
    parksAtOnce: parks && request.decidesAtOnce && readyNow,
  }
}

function latestLookIn(
  diary: Diary,
  lookInMin: number,
  fromMin: Minute,
  lastStartMin: Minute,
  taken: readonly Slot[],
): Slot | null {
  for (let startMin = Math.floor(lastStartMin); startMin >= fromMin; startMin -= LOOK_IN_EVERY_MIN) {
    const slot = earliestSlot(
      diary,
      'look-in',
      null,
      lookInMin,
      Math.max(fromMin, startMin - LOOK_IN_EVERY_MIN + 1),
      startMin,
    )
    if (
      slot &&
      !taken.some(
        (other) => other.makerId === slot.makerId && other.startMin < slot.endMin && slot.startMin < other.endMin,
      )
    )
      return slot
  }
  return null
}

/** Follows every draw through the look-ins to the end of the work; null if it is held in too few. */
function waitWith(
  request: WaitRequest,
  covering: Covering,
  spans: DrawSpans,
  slot: Slot,
  { lookIns, parksAtOnce }: Visits,
  need: number,
): Wait | null {
  const { ware, from, spotId, band, partIndexes, held, covers } = request
  const park = parkingCovers.find((kind) => covers.includes(kind)) ?? covering.first
  const parking = lookIns.filter(({ parks }) => parks)
  const parkedAt = spans.openMin.map((open) =>
    parksAtOnce && open <= from.minute
      ? from.minute
      : (parking.find((lookIn) => lookIn.slot.startMin >= open)?.slot.endMin ?? null),
  )
  const base = spansOf(covering, from.minute, spotId).filter(({ fromMin }) => fromMin <= slot.startMin)
  const spansByDraw = parkedAt.map((parkedMin): CoverSpan[] =>
    parkedMin === null
      ? base
      : [...base.filter(({ fromMin }) => fromMin < parkedMin), { fromMin: parkedMin, cover: park, spotId }],
  )
  const path = pathOn(from, spansByDraw, slot.endMin)
  const both = heldBy(ware, path, { fromMin: slot.startMin, toMin: slot.endMin, band, partIndexes }).map(
    (inside, d) => inside && held[d] === true,
  )
  const count = both.filter(Boolean).length
  if (count < need) return null
  const parkedBy = (minute: Minute) => parkedAt.filter((at, d) => both[d] && at !== null && at <= minute).length
  return {
    covering,
    lookIns,
    parksAtOnce,
    parkWhen: (parksAtOnce || parking.length > 0) && band.from !== 'any' ? { firmness: band.from, cover: park } : null,
    slot,
    window: windowShown(spans, parkedAt, both, slot, need),
    path,
    held: both,
    parkedAtMin:
      [from.minute, ...parking.map((lookIn) => lookIn.slot.endMin)].find((minute) => parkedBy(minute) * 2 > count) ??
      null,
  }
}

/** The span to be told: it opens when enough futures are firm, and closes when too few are left that are not parked. */
function windowShown(
  spans: DrawSpans,
  parkedAt: readonly (Minute | null)[],
  held: readonly boolean[],
  slot: Slot,
  need: number,
): StepWindow {
  const opens = spans.openMin.filter((_, d) => held[d]).toSorted((a, b) => a - b)
  const lastMin = slot.endMin + MIN_PER_DAY
  const closes = spans.closeMin
    .map((close, d) => (parkedAt[d] === null ? Math.min(close, lastMin) : lastMin))
    .filter((_, d) => held[d])
    .toSorted((a, b) => b - a)
  return {
    openMin: Math.min(opens[need - 1] ?? slot.startMin, slot.startMin),
    closeMin: Math.max(closes[need - 1] ?? slot.endMin, slot.endMin),
    odds: held.filter(Boolean).length / held.length,
    bindingPart: spans.closingPart,
  }
}
