/**
 * A run while it is clay: cut, every step inside its window, covered and looked in at between, rested, opened and dried.
 * The whole chain is looked for first and booked only if it holds.
 */
import type { CoverKind, CoverSpan, StepBand } from '#core/drying/types.ts'
import type { DesignStep, Spot } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import { COMMON_DRAWS, DRY_ODDS, drawsFor } from '../facts/commonDraws.ts'
import type { Job } from '../jobs.ts'
import type { PlannedRun, RunTask } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import { stepMin } from './bench.ts'
import { clayTrouble, spendClay } from './clayStore.ts'
import { addTask, type Desk, type PlacedClay, stepTask, takeBoards } from './desk.ts'
import { earliestSlot, type Slot } from './diary.ts'
import { legsOfChain, shownChain } from './replay.ts'
import { leastFree, take } from './room.ts'
import { cutSlots, wantedSlot } from './starts.ts'
import { findWait, type Wait } from './wait.ts'
import { asCut, builtNow, type ClayPath, type ClayState, dryMinutes, type Leg, pathFrom, settled, stateNow, type Ware } from './wares.ts'

/** Boards are kept this long after ware is dry, so that it can wait for a kiln. Our choice. */
const BOARDS_KEPT_DAYS = 10
/** Cuts whose whole chain is looked for, and slots for cutting that are looked at. Our choice. */
const CUTS_TRIED = 8
const SLOTS_LOOKED_AT = 20

/** A chain on its way: what is done and how the clay is after it. */
type Chain = {
  readonly ware: Ware
  readonly spot: Spot
  readonly path: ClayPath
  readonly legs: readonly Leg[]
  readonly held: readonly boolean[]
  readonly tasks: readonly RunTask[]
  readonly waits: PlannedRun['waits']
}

/** Places a run's clay from where it is to dry ware; or why it cannot be. Nothing is booked unless all of it holds. */
export function placeClay(desk: Desk, job: Job): PlacedClay | PlanningReason {
  const { studio } = desk.given
  const isCut = job.stage !== 'begun'
  const spots = isCut ? studio.spots.filter(({ id }) => id === spotNow(job)) : studio.spots
  let reason: PlanningReason | null = null
  for (const spot of spots) {
    const placed = isCut ? placeUnderWay(desk, job, spot) : placeNew(desk, job, spot)
    if (!('code' in placed)) return placed
    reason ??= placed
  }
  return reason ?? { code: 'no-board-room', params: { spot: '', neededBoards: boardsOf(job), boards: 0 } }
}

/** Where a run under way stands. */
export const spotNow = (job: Job): string => job.state?.waits.at(-1)?.spotId ?? ''
/** Ware boards that a run takes. */
export const boardsOf = ({ count, design }: Job): number => Math.ceil(count / design.piecesPerBoard)
const clayKinds = new Set(['cut', 'drape', 'release', 'join', 'surface'])
const claySteps = ({ design }: Job): readonly DesignStep[] => design.steps.filter(({ kind }) => clayKinds.has(kind))

function placeNew(desk: Desk, job: Job, spot: Spot): PlacedClay | PlanningReason {
  const cut = job.design.steps.find(({ kind }) => kind === 'cut')
  if (!cut) return { code: 'design-has-no-clay-step', params: { design: job.design.name } }
  const durationMin = stepMin(cut, job.count)
  const slots = cutSlots(desk, job, cut, durationMin, SLOTS_LOOKED_AT)
  if ('code' in slots) return slots
  let reason: PlanningReason | null = null
  let tried = 0
  for (const { slot, pinned } of slots) {
    const short = clayTrouble(desk, job, slot.startMin)
    if (short) {
      reason ??= short
      continue
    }
    if (tried++ >= CUTS_TRIED) break
    const ware = desk.given.wareOf(job, spot)
    const task = stepTask(job.id, cut.id, slot, job.count, { pinned })
    const path = pathFrom(ware, asCut(ware, slot.endMin))
    const start: Chain = { ware, spot, path, legs: [], held: ware.draws.map(() => true), tasks: [task], waits: [] }
    const placed = finishChain(desk, job, start, claySteps(job).filter(({ kind }) => kind !== 'cut'), slot.startMin, slot.endMin)
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
  return finishChain(desk, job, start, left, nowMin, run.cutMin)
}

/** The steps that are left, the rest, the drying; booked if all of it holds. */
function finishChain(desk: Desk, job: Job, start: Chain, steps: readonly DesignStep[], boardsFromMin: Minute, cutMin: Minute | null): PlacedClay | PlanningReason {
  let chain = start
  for (const [i, step] of steps.entries()) {
    // What may be missed is shared out over the steps, so that the first does not use it up.
    const odds = 1 - ((1 - desk.given.studio.rules.windowOdds) * (i + 1)) / steps.length
    const next = afterStep(desk, job, chain, step, odds)
    if ('code' in next) return next
    chain = next
  }
  return bookChain(desk, job, chain, boardsFromMin, cutMin)
}

/** A run's clay just as it was shown, booked; null if that no longer holds. */
export function placeAsShown(desk: Desk, job: Job): PlacedClay | null {
  const isCut = job.stage !== 'begun'
  const left = claySteps(job).filter(({ id, kind }) => !isCut || (kind !== 'cut' && !job.state!.doneStepIds.includes(id)))
  const shown = shownChain(desk, job, left)
  if (!shown) return null
  const [first, ...rest] = shown
  const spotId = isCut ? spotNow(job) : first!.after?.spotId
  const spot = desk.given.studio.spots.find(({ id }) => id === spotId)
  if (!spot) return null
  const ware = desk.given.wareOf(job, spot)
  const path = pathFrom(ware, isCut ? stateNow(desk, job, ware) : asCut(ware, first!.endMin))
  const start: Chain = { ware, spot, path, legs: [], held: ware.draws.map(() => true), tasks: isCut ? [] : [first!], waits: isCut ? job.state!.waits : [] }
  const boardsFromMin = isCut ? desk.given.nowMin : first!.startMin
  const placed = bookChain(desk, job, replayed(job, start, isCut ? shown : rest), boardsFromMin, isCut ? job.state!.cutMin : first!.endMin)
  return 'code' in placed ? null : placed
}

/** The chain that was shown, walked again from where the clay is. */
function replayed(job: Job, start: Chain, shown: readonly RunTask[]): Chain {
  const tasks = [...start.tasks, ...shown]
  const over = start.waits.at(-1)?.cover ?? tasks[0]!.after?.cover ?? 'open'
  const legs = legsOfChain(tasks, { fromMin: start.path.minute, spotId: start.spot.id, over }, ({ stepId }) => {
    const step = job.design.steps.find(({ id }) => id === stepId)!
    return { band: step.band ?? anyBand, partIndexes: partsOf(job, step) }
  })
  const endMin = tasks.at(-1)!.endMin
  const set = tasks.slice(0, -1).flatMap(({ endMin: fromMin, after }) => (after ? [{ fromMin, ...after }] : []))
  return { ...start, legs, tasks, waits: [...start.waits, ...set], path: { ...start.path, minute: endMin } }
}

/** The rest after the last step, the drying, the boards; booked if all of it holds. */
function bookChain(desk: Desk, job: Job, chain: Chain, boardsFromMin: Minute, cutMin: Minute | null): PlacedClay | PlanningReason {
  const boardCount = boardsOf(job)
  // Room for the chain itself is looked for before its futures are walked, which is the dearest part.
  const isThere = job.stage !== 'begun'
  const early = isThere ? null : roomTrouble(desk, chain.spot, boardCount, boardsFromMin, chain.path.minute)
  if (early) return early
  const { state, held } = settled(desk.given.wares, chain.ware, chain.path.start, chain.legs)
  const heldCount = held.filter(Boolean).length
  if (heldCount < drawsFor(desk.given.studio.rules.windowOdds)) return missed(job, chain)
  const rested = restAndOpen(desk, job, chain, state)
  if ('code' in rested) return rested
  const dryByDrawMin = rested.dryByDrawMin
  const dryMin = dryByDrawMin.toSorted((a, b) => a - b)[drawsFor(DRY_ODDS) - 1]!
  if (!Number.isFinite(dryMin)) return { code: 'never-dry', params: { part: job.design.name } }
  if (dryMin >= desk.given.horizonMin) return { code: 'never-dry', params: { part: job.design.name } }
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

function roomTrouble(desk: Desk, spot: Spot, neededBoards: number, fromMin: Minute, toMin: Minute): PlanningReason | null {
  const boards = Math.min(leastFree(desk.boards, fromMin, toMin), leastFree(desk.spots.get(spot.id)!, fromMin, toMin))
  return boards < neededBoards ? { code: 'no-board-room', params: { spot: spot.name, neededBoards, boards: Math.max(0, boards) } } : null
}

/** The full model disagrees with the fast path: the window is too thin to count on. */
function missed({ design }: Job, { legs, tasks, ware, path }: Chain): PlanningReason {
  const step = design.steps.find(({ id }) => id === tasks.findLast(({ kind }) => kind === 'step')?.stepId)
  const closeMin = legs.at(-1)?.work.toMin ?? path.minute
  return { code: 'window-closes-while-nobody-there', params: { step: step?.name ?? '', part: ware.partNames[0] ?? '', closeMin } }
}

const anyBand: StepBand = { from: 'any', to: 'any' }

/** Indexes of the parts that a step needs. */
function partsOf({ design }: Job, { partIds }: DesignStep): number[] {
  return design.parts.flatMap(({ id }, p) => (partIds.length === 0 || partIds.includes(id) ? [p] : []))
}

/** The chain with one more step done, or why it cannot be. */
function afterStep(desk: Desk, job: Job, chain: Chain, step: DesignStep, odds: number): Chain | PlanningReason {
  const { studio, wares } = desk.given
  const band = step.band ?? anyBand
  const partIndexes = partsOf(job, step)
  const durationMin = stepMin(step, job.count)
  const wait = findWait({
    wares,
    ware: chain.ware,
    diary: desk.diary,
    from: chain.path,
    held: chain.held,
    spotId: chain.spot.id,
    start: coversAtOnce(desk, chain),
    covers: studio.covers,
    step,
    band,
    partIndexes,
    durationMin,
    odds,
    lookInMin: studio.rules.lookInMin,
    wanted: wantedSlot(desk, job.id, step, durationMin),
    isOpenTo: (slot) => mouldsFree(desk, job, step, slot),
  })
  return 'code' in wait ? wait : withStep(desk, job, chain, step, wait)
}

/**
 * Covers that can be chosen now: all of them when hands are on the run, for the task that ends now sets it; only what
 * lies over it when nobody is there.
 */
function coversAtOnce(desk: Desk, chain: Chain): readonly CoverKind[] {
  const over = chain.waits.at(-1)
  return chain.tasks.length === 0 && over ? [over.cover] : desk.given.studio.covers
}

function withStep(desk: Desk, job: Job, chain: Chain, step: DesignStep, wait: Wait): Chain {
  const spotId = chain.spot.id
  const waiting = covered(chain, wait.covering.first, spotId, chain.path.minute, wait.parksAtOnce ? wait.parkWhen : null)
  const lookIns = wait.lookIns.map(({ slot, parks, cover }) =>
    stepTask(job.id, lookInId(slot), slot, job.count, {
      kind: 'look-in',
      parkWhen: parks ? wait.parkWhen : null,
      after: cover === null ? null : { cover, spotId },
    }),
  )
  const pinned = desk.given.studio.pins.some(({ runId, stepId }) => runId === job.id && stepId === step.id)
  const task = stepTask(job.id, step.id, wait.slot, job.count, { window: wait.window, pinned })
  const parkedMin = wait.parkedAtMin ?? Number.POSITIVE_INFINITY
  const before = wait.parkedAtMin === chain.path.minute ? chain.waits : waiting.waits
  const changes = wait.lookIns.flatMap(({ slot, cover }) => (cover !== null && slot.endMin < parkedMin ? [{ fromMin: slot.endMin, cover, spotId }] : []))
  const parked = wait.parkedAtMin !== null && wait.parkWhen ? [{ fromMin: wait.parkedAtMin, cover: wait.parkWhen.cover, spotId }] : []
  return {
    ...chain,
    path: wait.path,
    legs: [...chain.legs, legOf(job, chain, step, wait)],
    held: wait.held,
    tasks: [...waiting.tasks, ...lookIns, task],
    waits: [...before, ...changes, ...parked],
  }
}

/** A look-in is named by its minute, so that a plan made again names it alike. */
const lookInId = ({ startMin }: Slot): string => `look-in:${startMin}`

function legOf(job: Job, chain: Chain, step: DesignStep, { covering, lookIns, parkWhen, parksAtOnce, slot }: Wait): Leg {
  return {
    fromMin: chain.path.minute,
    spotId: chain.spot.id,
    cover: chain.tasks.length > 0 ? covering.first : null,
    over: chain.waits.at(-1)?.cover ?? covering.first,
    parkWhen,
    parksAtOnce,
    visits: lookIns.map(({ slot: { startMin, endMin }, parks, cover }) => ({ startMin, endMin, parks: parks && parkWhen !== null, cover })),
    work: { fromMin: slot.startMin, toMin: slot.endMin, band: step.band ?? anyBand, partIndexes: partsOf(job, step) },
  }
}

/** Sets the cover that begins at `fromMin`, by the task that ends then; a run under way that keeps its cover needs none. */
function covered(chain: Chain, cover: CoverKind, spotId: string, fromMin: Minute, parkWhen: RunTask['parkWhen'] = null): Pick<Chain, 'tasks' | 'waits'> {
  const last = chain.tasks.at(-1)
  if (!last) return { tasks: chain.tasks, waits: chain.waits }
  const tasks = [...chain.tasks.slice(0, -1), { ...last, after: { cover, spotId }, parkWhen }]
  return { tasks, waits: [...chain.waits, { fromMin, cover, spotId }] }
}

type RestStage = { readonly cover: CoverKind; readonly leastMin: number }
const restStage = (cover: CoverKind, leastHours: number): RestStage => ({ cover, leastMin: leastHours * MIN_PER_HOUR })

/** After the last step: sealed to even out, loosened, opened, each at a look-in; then when it is dry. */
function restAndOpen(desk: Desk, job: Job, chain: Chain, state: ClayState): { readonly chain: Chain; readonly dryByDrawMin: readonly number[] } | PlanningReason {
  const { design } = job
  const { covers, rules } = desk.given.studio
  const lastStepMin = chain.tasks.length > 0 ? state.minute : (job.state?.lastStepMin ?? state.minute)
  const first = (kinds: readonly CoverKind[]) => kinds.find((cover) => covers.includes(cover))
  const resting = first(['sealed', 'tucked', 'damp cupboard']) ?? 'sealed'
  const loosened = first(['loose', 'tucked', 'sealed']) ?? resting
  const opened = first(['open', 'cloth']) ?? 'open'
  let next = chain
  const stages: readonly RestStage[] = [
    ...(design.evenOutHours.least > 0 ? [restStage(resting, design.evenOutHours.least)] : []),
    ...(design.slowDryHours > 0 ? [restStage(loosened, design.slowDryHours)] : []),
    restStage(opened, 0),
  ]
  let fromMin = state.minute
  let remaining = stages
  if (chain.tasks.length > 0) {
    next = { ...next, ...covered(next, stages[0]!.cover, chain.spot.id, fromMin) }
  } else {
    // Under way with its last step done: it is in one of these stages already, by the cover that lies over it.
    const over = job.state?.waits.at(-1)
    const at = Math.max(0, stages.findIndex(({ cover }) => cover === over?.cover))
    remaining = stages.slice(at)
    fromMin = Math.max(over?.fromMin ?? lastStepMin, lastStepMin)
  }
  const spans: CoverSpan[] = chain.tasks.length > 0 ? [{ fromMin, cover: stages[0]!.cover, spotId: chain.spot.id }] : []
  for (let i = 0; i + 1 < remaining.length; i++) {
    const readyMin = Math.max(fromMin + remaining[i]!.leastMin, desk.given.nowMin)
    const lookIn = earliestSlot(desk.diary, 'look-in', null, rules.lookInMin, readyMin, desk.given.horizonMin)
    if (!lookIn) return { code: 'no-making-hours', params: { work: 'look-in' } }
    const after = { cover: remaining[i + 1]!.cover, spotId: chain.spot.id }
    const task = stepTask(job.id, lookInId(lookIn), lookIn, job.count, { kind: 'look-in', after })
    next = {
      ...next,
      tasks: [...next.tasks, task],
      waits: [...next.waits, { fromMin: lookIn.endMin, ...after }],
    }
    spans.push({ fromMin: lookIn.endMin, ...after })
    fromMin = lookIn.endMin
  }
  if (chain.tasks.length === 0) {
    const over = job.state?.waits.at(-1)
    spans.unshift({ fromMin: state.minute, cover: over?.cover ?? 'open', spotId: chain.spot.id })
  }
  const built = chain.legs.length === 0 && job.stage !== 'begun' ? builtNow(desk, job, chain.ware) : null
  return { chain: next, dryByDrawMin: dryMinutes(desk.given.wares, chain.ware, state, spans, built) }
}

/** Moulds are busy from the drape to the end of the step that frees them. */
function takeMoulds(desk: Desk, job: Job, tasks: readonly RunTask[]): PlanningReason | null {
  const steps = claySteps(job)
  const at = steps.findIndex(({ kind, mouldId }) => kind === 'drape' && mouldId !== null)
  const drape = steps[at]
  if (!drape) return null
  const done = job.state?.doneStepIds ?? []
  const freeing = steps[at + 1]
  const isOver = done.includes(drape.id) && !(freeing && done.includes(freeing.id))
  const task = tasks.find(({ stepId }) => stepId === drape.id)
  const fromMin = isOver ? desk.given.nowMin : task?.startMin
  if (fromMin === undefined) return null
  const untilMin = tasks.find(({ stepId }) => stepId === freeing?.id)?.endMin ?? task?.endMin ?? fromMin
  const room = desk.moulds.get(drape.mouldId!)
  if (!isOver && (!room || leastFree(room, fromMin, untilMin) < job.count)) return { code: 'no-mould', params: { mould: drape.name } }
  if (room) take(room, job.count, fromMin, untilMin)
  return null
}

function mouldsFree(desk: Desk, job: Job, step: DesignStep, slot: Slot): boolean {
  if (step.kind !== 'drape' || step.mouldId === null) return true
  const room = desk.moulds.get(step.mouldId)
  return room !== undefined && leastFree(room, slot.startMin, slot.endMin + MIN_PER_DAY) >= job.count
}
