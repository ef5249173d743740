/**
 * One wait of a run: from where the clay is, under which cover and with which look-ins it comes to its next step, and
 * when hands are there for it. A look-in that decides parks whatever is ready under plastic, so that fast and slow futures
 * both meet the step: without it most overnight windows would be empty.
 */
import type { CoverKind, CoverSpan, Firmness } from '#core/drying/types.ts'
import type { DesignStep } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import { drawsFor } from '../facts/commonDraws.ts'
import type { StepWindow } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import { candidateSlots, type Diary, earliestSlot, type Slot } from './diary.ts'
import { type ClayState, type DrawSpans, followed, spansUnder, type Ware, type Wares } from './wares.ts'

/** What a wait is looked for: by whom, for what, and between what. */
export type WaitRequest = {
  readonly wares: Wares
  readonly ware: Ware
  readonly diary: Diary
  readonly from: ClayState
  /** Draws in which all steps so far were held. */
  readonly held: readonly boolean[]
  readonly spotId: string
  readonly covers: readonly CoverKind[]
  readonly step: DesignStep
  readonly partIndexes: readonly number[]
  readonly durationMin: number
  readonly odds: number
  readonly lookInMin: number
  /** Slots to be tried first (a pin: only this; a plan already shown: this before others). */
  readonly wanted: { readonly slot: Slot; readonly only: boolean } | null
  readonly isOpenTo: (slot: Slot) => boolean
}

export type Wait = {
  readonly cover: CoverKind
  /** Look-ins that decide, in rising time, and where the clay is parked at each of them. */
  readonly lookIns: readonly Slot[]
  readonly parkWhen: { readonly firmness: Firmness; readonly cover: CoverKind } | null
  readonly slot: Slot
  readonly window: StepWindow
  readonly state: ClayState
  readonly held: readonly boolean[]
  /** The look-in at which most of the held draws are parked; null: it waits on under `cover`. */
  readonly parkedAtMin: Minute | null
}

/** Under what ready clay is parked: the closest cover that the studio has. */
const parkingCovers: readonly CoverKind[] = ['tucked', 'sealed', 'loose']
/** Covers in the order in which they are tried while clay firms up, and once it is ready. */
const firmingCovers: readonly CoverKind[] = ['loose', 'cloth', 'open', 'tucked']
const keepingCovers: readonly CoverKind[] = ['tucked', 'sealed', 'loose', 'damp cupboard']
/** Each look-in weighs as much as being done this much later. Our choice. */
const LOOK_IN_WEIGHS_MIN = 3 * MIN_PER_HOUR
const MOST_LOOK_INS = 3
const SLOTS_TRIED = 8
const LOOK_IN_EVERY_MIN = 30
/** A wait without look-ins that ends this soon is taken as it is. */
const SOON_MIN = 30 * MIN_PER_HOUR
const LOOK_AHEAD_MIN = 4 * MIN_PER_DAY

/** The best wait that holds the step's window at the odds wanted; or why there is none. */
export function findWait(request: WaitRequest): Wait | PlanningReason {
  let best: Wait | null = null
  let reason: PlanningReason | null = null
  for (const cover of coversToTry(request)) {
    const found = waitUnder(request, cover)
    if ('code' in found) {
      reason ??= found
      continue
    }
    if (!best || weightOf(found) < weightOf(best)) best = found
    if (best.lookIns.length === 0 && best.slot.startMin - request.from.minute <= SOON_MIN) break
  }
  return best ?? reason ?? { code: 'window-never-opens', params: { step: request.step.name, part: '' } }
}

const weightOf = ({ slot, lookIns }: Wait): number => slot.endMin + lookIns.length * LOOK_IN_WEIGHS_MIN

function coversToTry({ covers, wares, ware, from, spotId, step, partIndexes, held }: WaitRequest): readonly CoverKind[] {
  const { openMin } = spansUnder(wares, ware, from, covers.includes('tucked') ? 'tucked' : 'loose', spotId, step.band!, partIndexes)
  const readyNow = openMin.filter((open, d) => held[d] && open <= from.minute).length
  const order = readyNow * 2 > held.filter(Boolean).length ? keepingCovers : firmingCovers
  return order.filter((cover) => covers.includes(cover))
}

function waitUnder(request: WaitRequest, cover: CoverKind): Wait | PlanningReason {
  const { wares, ware, from, spotId, step, partIndexes, held, odds, diary, durationMin, wanted } = request
  const spans = spansUnder(wares, ware, from, cover, spotId, step.band!, partIndexes)
  const need = drawsFor(odds)
  const opens = spans.openMin.filter((_, d) => held[d]).toSorted((a, b) => a - b)
  const firstMin = opens[need - 1]
  if (firstMin === undefined || !Number.isFinite(firstMin)) {
    return { code: 'window-never-opens', params: { step: step.name, part: spans.closingPart } }
  }
  const lastMin = from.minute + LOOK_AHEAD_MIN
  const slots = wanted?.only
    ? [wanted.slot]
    : [...(wanted ? [wanted.slot] : []), ...candidateSlots(diary, 'making', step.needs, durationMin, firstMin, lastMin, SLOTS_TRIED)]
  for (const slot of slots) {
    if (slot.startMin < firstMin || !request.isOpenTo(slot)) continue
    const lookIns = lookInsFor(request, spans, slot, need)
    if (!lookIns) continue
    const wait = settled(request, cover, spans, slot, lookIns, need)
    if (wait) return wait
  }
  const closes = spans.closeMin.filter((close, d) => held[d] && Number.isFinite(close)).toSorted((a, b) => a - b)
  const closeMin = closes[Math.max(0, closes.length - need)] ?? lastMin
  return { code: 'window-closes-while-nobody-there', params: { step: step.name, part: spans.closingPart, closeMin } }
}

/**
 * The fewest look-ins that park every future in time: futures by their closing, each not yet met takes the latest look-in
 * before it closes. Null if too many futures cannot be met.
 */
function lookInsFor(request: WaitRequest, spans: DrawSpans, slot: Slot, need: number): readonly Slot[] | null {
  const { held, diary, lookInMin, from } = request
  const firm = spans.openMin.map((open, d) => held[d] === true && open <= slot.startMin)
  let mayMiss = firm.filter(Boolean).length - need
  if (mayMiss < 0) return null
  const early = spans.closeMin
    .map((closeMin, d) => ({ openMin: spans.openMin[d]!, closeMin, d }))
    .filter(({ closeMin, d }) => firm[d] && closeMin < slot.endMin)
    .toSorted((a, b) => a.closeMin - b.closeMin || a.d - b.d)
  const chosen: Slot[] = []
  for (const { openMin, closeMin } of early) {
    if (chosen.some(({ startMin, endMin }) => startMin >= openMin && endMin <= closeMin)) continue
    const last = Math.min(closeMin, slot.startMin) - lookInMin
    const lookIn = latestLookIn(diary, lookInMin, Math.max(openMin, from.minute), last)
    if (lookIn && chosen.length < MOST_LOOK_INS) chosen.push(lookIn)
    else if (--mayMiss < 0) return null
  }
  return chosen.toSorted((a, b) => a.startMin - b.startMin)
}

function latestLookIn(diary: Diary, lookInMin: number, fromMin: Minute, lastStartMin: Minute): Slot | null {
  for (let startMin = Math.floor(lastStartMin); startMin >= fromMin; startMin -= LOOK_IN_EVERY_MIN) {
    const slot = earliestSlot(diary, 'look-in', null, lookInMin, Math.max(fromMin, startMin - LOOK_IN_EVERY_MIN + 1), startMin)
    if (slot) return slot
  }
  return null
}

/** Follows every draw through the look-ins to the end of the work; null if it is held in too few. */
function settled(request: WaitRequest, cover: CoverKind, spans: DrawSpans, slot: Slot, lookIns: readonly Slot[], need: number): Wait | null {
  const { ware, from, spotId, step, partIndexes, held, covers } = request
  const park = parkingCovers.find((kind) => covers.includes(kind)) ?? cover
  const parkedAt = spans.openMin.map((open) => lookIns.find(({ startMin }) => startMin >= open)?.endMin ?? null)
  const spansByDraw = parkedAt.map((parkedMin): CoverSpan[] => [
    { fromMin: from.minute, cover, spotId },
    ...(parkedMin === null ? [] : [{ fromMin: parkedMin, cover: park, spotId }]),
  ])
  const work = { fromMin: slot.startMin, toMin: slot.endMin, band: step.band!, partIndexes }
  const outcome = followed(ware, from, spansByDraw, work)
  const both = outcome.held.map((inside, d) => inside && held[d] === true)
  const count = both.filter(Boolean).length
  if (count < need) return null
  const likeliest = lookIns.find(({ endMin }) => parkedAt.filter((at, d) => both[d] && at !== null && at <= endMin).length * 2 > count)
  return {
    cover,
    lookIns,
    parkWhen: lookIns.length > 0 && step.band!.from !== 'any' ? { firmness: step.band!.from, cover: park } : null,
    slot,
    window: windowShown(spans, parkedAt, both, slot, need),
    state: outcome.state,
    held: both,
    parkedAtMin: likeliest?.endMin ?? null,
  }
}

/** The span to be told: it opens when enough futures are firm, and closes when too few are left that are not parked. */
function windowShown(spans: DrawSpans, parkedAt: readonly (Minute | null)[], held: readonly boolean[], slot: Slot, need: number): StepWindow {
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
