/**
 * A run while it is clay: cut, every step inside its window, covered and looked in at between, rested, opened and dried.
 * The whole chain is looked for first and booked only if it holds.
 */
import type { DesignStep, Spot } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { COMMON_DRAWS, DRY_ODDS, drawsFor, LEAST_ODDS_UNDER_WAY } from '../facts/commonDraws.ts'
import type { Job } from '../jobs.ts'
import type { RunTask } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import { stepMin } from './bench.ts'
import { afterStep, type Chain, replayed } from './chain.ts'
import { clayTrouble, spendClay } from './clayStore.ts'
import { addTask, type Desk, type PlacedClay, stepTask, takeBoards } from './desk.ts'
import { takeMoulds } from './moulds.ts'
import { shownChain } from './replay.ts'
import { restAndOpen } from './rest.ts'
import { leastFree } from './room.ts'
import { boardsOf, claySteps, spotNow } from './runFacts.ts'
import { stateNow } from './runsNow.ts'
import { settled } from './settle.ts'
import { cutSlots } from './starts.ts'
import { asCut, pathFrom } from './wares.ts'

/** Boards are kept this long after ware is dry, so that it can wait for a kiln. Our choice. */
const BOARDS_KEPT_DAYS = 10
/** No ware is joined, dry and fired sooner: full boards within it are found before the chain is looked for. Our choice. */
const BOARDS_SURE_DAYS = 3
/** Cuts whose whole chain is looked for, and slots for cutting that are looked at. Our choice. */
const CUTS_TRIED = 40
const SLOTS_LOOKED_AT = 60

/** Bisque, glaze and finishing take at least so long after ware is dry. Our choice. */
const DRY_BEFORE_DUE_DAYS = 6

/** What was shown stays though its odds fell so far: a new look at the weather moves them by one draw or two. Our choice. */
const SHOWN_MAY_FALL = 0.1

/** Places a run's clay from where it is to dry ware; or why it cannot be. Nothing is booked unless all of it holds. */
export function placeClay(desk: Desk, job: Job): PlacedClay | PlanningReason {
  const { studio, nowMin, horizonMin } = desk.given
  const isCut = job.stage !== 'begun'
  const spots = isCut ? studio.spots.filter(({ id }) => id === spotNow(job)) : studio.spots
  const dryInTimeMin = job.dueMin - DRY_BEFORE_DUE_DAYS * MIN_PER_DAY
  // A damp spot may dry ware, but too late where another would not.
  const limits =
    !isCut && dryInTimeMin < horizonMin && dryInTimeMin > nowMin ? [dryInTimeMin, horizonMin] : [horizonMin]
  let reason: PlanningReason | null = null
  for (const dryBeforeMin of limits) {
    reason = null
    for (const spot of spots) {
      const placed = isCut ? placeUnderWay(desk, job, spot) : placeNew(desk, job, spot, dryBeforeMin)
      if (!('code' in placed)) return placed
      reason ??= placed
    }
  }
  return reason ?? { code: 'no-board-room', params: { spot: '', neededBoards: boardsOf(job), boards: 0 } }
}

function placeNew(desk: Desk, job: Job, spot: Spot, dryBeforeMin: Minute): PlacedClay | PlanningReason {
  const cut = job.design.steps.find(({ kind }) => kind === 'cut')
  if (!cut) return { code: 'design-has-no-clay-step', params: { design: job.design.name } }
  const durationMin = stepMin(cut, job.count)
  const slots = cutSlots(desk, job, cut, durationMin, SLOTS_LOOKED_AT)
  if ('code' in slots) return slots
  let reason: PlanningReason | null = null
  let tried = 0
  for (const { slot, pinned } of slots) {
    const short =
      clayTrouble(desk, job, slot.startMin) ??
      roomTrouble(desk, spot, boardsOf(job), slot.startMin, slot.endMin + BOARDS_SURE_DAYS * MIN_PER_DAY)
    if (short) {
      reason ??= short
      continue
    }
    if (tried++ >= CUTS_TRIED) break
    const ware = desk.given.wareOf(job, spot)
    const task = stepTask(job.id, cut.id, slot, job.count, { pinned })
    const path = pathFrom(ware, asCut(ware, slot.endMin))
    const start: Chain = { ware, spot, path, legs: [], held: ware.draws.map(() => true), tasks: [task], waits: [] }
    const placed = finishChain(
      desk,
      job,
      start,
      claySteps(job).filter(({ kind }) => kind !== 'cut'),
      desk.given.studio.rules.windowOdds,
      slot.startMin,
      slot.endMin,
      dryBeforeMin,
    )
    if (!('code' in placed)) return placed
    reason ??= placed
    if (placed.code === 'window-never-opens' || placed.code === 'never-dry') break
  }
  return reason!
}

function placeUnderWay(desk: Desk, job: Job, spot: Spot): PlacedClay | PlanningReason {
  const run = job.state!
  const ware = desk.given.wareOf(job, spot)
  const { nowMin } = desk.given
  const left = claySteps(job).filter(({ id, kind }) => kind !== 'cut' && !run.doneStepIds.includes(id))
  // With no step left only the built piece counts, which has a history of its own (`builtNow`).
  const state = left.length > 0 ? stateNow(desk, job, ware) : { key: `now ${job.id}`, minute: nowMin, states: null }
  const path = pathFrom(ware, state)
  const start: Chain = { ware, spot, path, legs: [], held: ware.draws.map(() => true), tasks: [], waits: run.waits }
  let reason: PlanningReason | null = null
  for (const odds of oddsUnderWay(desk)) {
    const placed = finishChain(desk, job, start, left, odds, nowMin, run.cutMin)
    if (!('code' in placed)) return placed
    reason ??= placed
  }
  return reason!
}

/** As the studio wants them; then the best there are. */
const oddsUnderWay = ({ given: { studio } }: Desk): number[] => [
  studio.rules.windowOdds,
  ...[0.8, 0.65, LEAST_ODDS_UNDER_WAY].filter((odds) => odds < studio.rules.windowOdds),
]

/** The steps that are left, the rest, the drying; booked if all of it holds. */
function finishChain(
  desk: Desk,
  job: Job,
  start: Chain,
  steps: readonly DesignStep[],
  odds: number,
  boardsFromMin: Minute,
  cutMin: Minute | null,
  dryBeforeMin = desk.given.horizonMin,
): PlacedClay | PlanningReason {
  let chain = start
  for (const [i, step] of steps.entries()) {
    // What may be missed is shared out over the steps, so that the first does not use it up.
    const next = afterStep(desk, job, chain, step, 1 - ((1 - odds) * (i + 1)) / steps.length)
    if ('code' in next) return next
    chain = next
  }
  return bookChain(desk, job, chain, odds, boardsFromMin, cutMin, dryBeforeMin)
}

/** A run's clay just as it was shown, booked; null if that no longer holds. */
export function placeAsShown(desk: Desk, job: Job): PlacedClay | null {
  const isCut = job.stage !== 'begun'
  const left = claySteps(job).filter(
    ({ id, kind }) => !isCut || (kind !== 'cut' && !job.state!.doneStepIds.includes(id)),
  )
  const shown = shownChain(desk, job, left)
  if (!shown) return null
  const [first, ...rest] = shown
  const spotId = isCut ? spotNow(job) : first!.after?.spotId
  const spot = desk.given.studio.spots.find(({ id }) => id === spotId)
  if (!spot) return null
  const ware = desk.given.wareOf(job, spot)
  const path = pathFrom(ware, isCut ? stateNow(desk, job, ware) : asCut(ware, first!.endMin))
  const start: Chain = {
    ware,
    spot,
    path,
    legs: [],
    held: ware.draws.map(() => true),
    tasks: isCut ? [] : [first!],
    waits: isCut ? job.state!.waits : [],
  }
  const { windowOdds } = desk.given.studio.rules
  if (!isCut) {
    const placed = bookChain(desk, job, replayed(job, start, rest), windowOdds, first!.startMin, first!.endMin)
    return 'code' in placed ? null : placed
  }
  const booked = (tasks: readonly RunTask[], odds: number) =>
    bookChain(desk, job, replayed(job, start, tasks), odds, desk.given.nowMin, job.state!.cutMin)
  // What was felt and parked since needs no more looking in before its next step.
  const parked = booked(withoutFirstLookIns(shown), windowOdds)
  if (!('code' in parked)) return parked
  const placed = booked(shown, Math.max(LEAST_ODDS_UNDER_WAY, windowOdds - SHOWN_MAY_FALL))
  return 'code' in placed ? null : placed
}

function withoutFirstLookIns(tasks: readonly RunTask[]): readonly RunTask[] {
  const next = tasks.findIndex(({ kind }) => kind === 'step')
  return tasks.slice(Math.max(0, next))
}

/** The rest after the last step, the drying, the boards; booked if all of it holds. */
function bookChain(
  desk: Desk,
  job: Job,
  chain: Chain,
  odds: number,
  boardsFromMin: Minute,
  cutMin: Minute | null,
  dryBeforeMin = desk.given.horizonMin,
): PlacedClay | PlanningReason {
  const boardCount = boardsOf(job)
  // Room for the chain itself is looked for before its futures are walked, which is the dearest part.
  const isThere = job.stage !== 'begun'
  const early = isThere ? null : roomTrouble(desk, chain.spot, boardCount, boardsFromMin, chain.path.minute)
  if (early) return early
  const { state, held } = settled(desk.given.wares, chain.ware, chain.path.start, chain.legs)
  const heldCount = held.filter(Boolean).length
  if (heldCount < drawsFor(odds)) return missed(job, chain)
  const rested = restAndOpen(desk, job, chain, state)
  if ('code' in rested) return rested
  const dryByDrawMin = rested.dryByDrawMin
  const dryMin = dryByDrawMin.toSorted((a, b) => a - b)[drawsFor(DRY_ODDS) - 1]!
  if (!Number.isFinite(dryMin) || dryMin >= dryBeforeMin)
    return { code: 'never-dry', params: { part: job.design.name } }
  const boardsUntilMin = dryMin + BOARDS_KEPT_DAYS * MIN_PER_DAY
  const full = isThere ? null : roomTrouble(desk, chain.spot, boardCount, boardsFromMin, boardsUntilMin)
  if (full) return full
  const mouldTrouble = takeMoulds(desk, job, rested.chain.tasks)
  if (mouldTrouble) return mouldTrouble
  if (job.stage === 'begun') spendClay(desk, job, boardsFromMin)
  for (const task of rested.chain.tasks) addTask(desk, task)
  takeBoards(desk, chain.spot.id, boardCount, boardsFromMin, boardsUntilMin)
  return {
    job,
    spotId: chain.spot.id,
    boardCount,
    cutMin,
    boardsFromMin,
    boardsUntilMin,
    waits: rested.chain.waits,
    dryMin,
    dryByDrawMin,
    windowOdds: heldCount / COMMON_DRAWS,
  }
}

function roomTrouble(
  desk: Desk,
  spot: Spot,
  neededBoards: number,
  fromMin: Minute,
  toMin: Minute,
): PlanningReason | null {
  const boards = Math.min(leastFree(desk.boards, fromMin, toMin), leastFree(desk.spots.get(spot.id)!, fromMin, toMin))
  return boards < neededBoards
    ? { code: 'no-board-room', params: { spot: spot.name, neededBoards, boards: Math.max(0, boards) } }
    : null
}

/** The full model disagrees with the fast path: the window is too thin to count on. */
function missed({ design }: Job, { legs, tasks, ware, path }: Chain): PlanningReason {
  const step = design.steps.find(({ id }) => id === tasks.findLast(({ kind }) => kind === 'step')?.stepId)
  const closeMin = legs.at(-1)?.work.toMin ?? path.minute
  return {
    code: 'window-closes-while-nobody-there',
    params: { step: step?.name ?? '', part: ware.partNames[0] ?? '', closeMin },
  }
}
