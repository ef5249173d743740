/**
 * One plan, built in one go: kilns already loaded, then clay (it cannot wait), then firings by the date that presses
 * most, with glazing and finishing between. How it leans is given; improvement tries other leanings.
 */
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import { glazePortions, stepMin } from './bench.ts'
import {
  type Bench,
  bisqueLot,
  type Construction,
  glazeLot,
  jobOf,
  neededOf,
  outOfKiln,
  toGlaze,
  toPack,
} from './benchWork.ts'
import { busyTimes } from './busyTimes.ts'
import { placeAsShown, placeClay } from './clayChain.ts'
import { type Desk, freshDesk, type Given, type Leaning, type PlacedClay, takeBoards } from './desk.ts'
import { fireAsShown, fireLot, type FiredLot } from './firings.ts'
import type { Lot } from './lots.ts'
import { leastFree } from './room.ts'
import { boardsOf, spotNow } from './runFacts.ts'
import { placeFiringsUnderWay } from './underWay.ts'

/** When no kiln is free in time, ware keeps its boards for so much longer. Our choice. */
const LONGER_DAYS = 7

/** Builds a plan. The same given and leaning give the same plan. */
export function construct(given: Given, leaning: Leaning): Construction {
  const desk = freshDesk(given, leaning)
  const bench: Bench = {
    desk,
    lots: [],
    portions: new Map(),
    busyMin: busyTimes(given),
    ready: [],
    stuck: [],
    uncut: new Map(),
    oddsDry: new Map(),
  }
  for (const job of given.jobs) {
    const design = job.design
    bench.portions.set(job.id, glazePortions(design, job.count, job.allotments))
  }
  for (const out of placeFiringsUnderWay(desk))
    outOfKiln(bench, jobOf(given, out.runId), out.kind, out.glazeId, out.count, out.emptyMin)
  const order = inOrder(given, leaning)
  const kept = leaning.holds ? order.filter((job) => keepAsShown(bench, job)) : []
  for (const job of order) if (!kept.includes(job)) beginJob(bench, job)
  fireAll(bench)
  return { desk, ready: bench.ready, stuck: bench.stuck, uncut: bench.uncut }
}
/** Clay first, since it cannot wait: under way, as the leaning names it, by urgency; bisque and fired ware give way to it. */
function inOrder({ jobs }: Given, { first }: Leaning): readonly Job[] {
  const rank = (job: Job) => {
    if (!isClay(job)) return first.length + 1
    if (job.stage !== 'begun') return -1
    const named = first.indexOf(job.id)
    return named < 0 ? first.length : named
  }
  return jobs.toSorted((a, b) => rank(a) - rank(b))
}

const isClay = ({ stage }: Job): boolean => stage === 'begun' || stage === 'clay' || stage === 'drying'

/** Places a run's clay where the potter has seen it, if it can stay there. */
function keepAsShown(bench: Bench, job: Job): boolean {
  const placed = isClay(job) ? placeAsShown(bench.desk, job) : null
  if (placed) waitForBisque(bench, placed)
  return placed !== null
}

/** What cannot be brought on is left out; if it is cut already, it keeps its boards. */
function leaveLying(bench: Bench, job: Job, reason: PlanningReason): void {
  const { desk } = bench
  bench.stuck.push({ runId: job.id, glazeId: undefined, count: job.count, reason })
  if (job.stage !== 'begun') takeBoards(desk, spotNow(job), boardsOf(job), desk.given.nowMin, desk.given.horizonMin)
}

function waitForBisque(bench: Bench, placed: PlacedClay): void {
  bench.desk.clay.set(placed.job.id, placed)
  bench.lots.push(bisqueLot(bench, placed))
}

function beginJob(bench: Bench, job: Job): void {
  const { desk } = bench
  switch (job.stage) {
    case 'begun':
    case 'clay':
    case 'drying': {
      const placed = placeClay(desk, job)
      if ('code' in placed) leaveLying(bench, job, placed)
      else waitForBisque(bench, placed)
      return
    }
    case 'bisque':
      return toGlaze(bench, job, job.count, desk.given.nowMin)
    case 'glazed':
    case 'refire': {
      const dryMin = (job.state?.glazedMin ?? desk.given.nowMin) + desk.given.studio.rules.glazeDryHours * MIN_PER_HOUR
      bench.lots.push(
        glazeLot(bench, job, job.state?.glazeId ?? null, job.count, neededOf(job), Math.max(desk.given.nowMin, dryMin)),
      )
      return
    }
    case 'fired':
      return toPack(bench, job, job.state?.glazeId ?? null, job.count, desk.given.nowMin)
    case 'in bisque':
    case 'in glaze':
    case 'gone':
      return
  }
}

/** One firing after the other, for the lot whose date presses most. */
function fireAll(bench: Bench): void {
  const { planningCase, nowMin } = bench.desk.given
  const shown = bench.desk.leaning.holds ? (planningCase.basePlan?.firings ?? []) : []
  for (const firing of shown) {
    if (firing.underWay || firing.loadMin < nowMin || firing.loadMin >= planningCase.holdUntilMin) continue
    for (const out of fireAsShown(bench.desk, firing, bench.lots)) takeOut(bench, out)
  }
  for (;;) {
    const pressing = bench.lots.filter(({ neededCount }) => neededCount > 0)
    if (pressing.length === 0) break
    const lot = pressing.reduce((most, next) => (presses(next, most) ? next : most))
    const fired = fireLot(bench.desk, lot, bench.lots)
    if ('code' in fired) {
      const longer = fired.code === 'kilns-full' ? onBoardsLonger(bench, lot) : null
      if (longer) {
        bench.lots[bench.lots.indexOf(lot)] = longer
        continue
      }
      bench.lots.splice(bench.lots.indexOf(lot), 1)
      if (lot.kind === 'bisque') dropRun(bench.desk, lot.runId)
      bench.stuck.push({
        runId: lot.runId,
        glazeId: lot.kind === 'glaze' ? lot.glazeId : undefined,
        count: lot.count,
        reason: fired,
      })
    } else for (const out of fired) takeOut(bench, out)
  }
  for (const lot of bench.lots) {
    if (cutFewer(bench, lot)) continue
    const reason: PlanningReason = { code: 'waits-for-room', params: { count: lot.count } }
    bench.stuck.push({
      runId: lot.runId,
      glazeId: lot.kind === 'glaze' ? lot.glazeId : undefined,
      count: lot.count,
      reason,
    })
  }
}

/**
 * The lot with its boards kept for another week, if there are boards to spare; null otherwise. What is cut already lies
 * where it lies: runs not yet begun give way to it.
 */
function onBoardsLonger(bench: Bench, lot: Lot): Lot | null {
  const { desk } = bench
  const placed = desk.clay.get(lot.runId)
  const untilMin = lot.boardsUntilMin + LONGER_DAYS * MIN_PER_DAY
  if (!placed || !Number.isFinite(lot.boardsUntilMin) || lot.boardsUntilMin >= desk.given.horizonMin) return null
  const spot = desk.spots.get(placed.spotId)
  const free = () =>
    Math.min(
      leastFree(desk.boards, lot.boardsUntilMin, untilMin),
      spot ? leastFree(spot, lot.boardsUntilMin, untilMin) : 0,
    )
  if (placed.job.stage === 'begun') {
    if (free() < placed.boardCount) return null
  } else {
    const giveWay = [...desk.clay.values()]
      .filter(({ job, boardsUntilMin }) => job.stage === 'begun' && boardsUntilMin > lot.boardsUntilMin)
      .toSorted((a, b) => b.job.dueMin - a.job.dueMin || (a.job.id < b.job.id ? -1 : 1))
    for (const other of giveWay) if (free() < placed.boardCount) leaveUncut(bench, other, spot ? free() : 0)
  }
  takeBoards(desk, placed.spotId, placed.boardCount, lot.boardsUntilMin, untilMin)
  desk.clay.set(lot.runId, { ...placed, boardsUntilMin: untilMin })
  return { ...lot, boardsUntilMin: untilMin }
}

/** Spare pieces of a run to be begun whose others are fired: not cut at all, rather than left to lie on boards. */
function cutFewer({ desk, uncut }: Bench, { runId, kind, count, neededCount }: Lot): boolean {
  const job = jobOf(desk.given, runId)
  if (kind !== 'bisque' || job?.stage !== 'begun' || neededCount > 0 || count >= job.count) return false
  const mine = desk.tasks.filter((task) => task.runId === runId && task.count === job.count)
  if (mine.some(({ pinned }) => pinned)) return false
  uncut.set(runId, count)
  for (const task of mine) {
    // Begun later by what is saved: all that follows hangs on when it is done.
    const step = task.kind === 'step' ? job.design.steps.find(({ id }) => id === task.stepId) : undefined
    const startMin = step ? task.endMin - stepMin(step, job.count - count) : task.startMin
    desk.tasks[desk.tasks.indexOf(task)] = { ...task, startMin, count: job.count - count }
  }
  return true
}

/** A run to be begun that gives its boards to what is there already. */
function leaveUncut(bench: Bench, { job, spotId, boardCount }: PlacedClay, boards: number): void {
  if (!dropRun(bench.desk, job.id)) return
  bench.lots.splice(0, bench.lots.length, ...bench.lots.filter(({ runId }) => runId !== job.id))
  const spot = bench.desk.given.studio.spots.find(({ id }) => id === spotId)?.name ?? spotId
  const reason = { code: 'no-board-room', params: { spot, neededBoards: boardCount, boards } } as const
  bench.stuck.push({ runId: job.id, glazeId: undefined, count: job.count, reason })
}

/** A run that no kiln would take in time is not begun at all; one that is under way or partly fired goes on lying. */
function dropRun(desk: Desk, runId: string): boolean {
  const placed = desk.clay.get(runId)
  const isFired = desk.firings.some(({ members }) => members.some((member) => member.runId === runId))
  if (!placed || placed.job.stage !== 'begun' || isFired) return false
  desk.clay.delete(runId)
  desk.tasks.splice(0, desk.tasks.length, ...desk.tasks.filter((task) => task.runId !== runId))
  takeBoards(desk, placed.spotId, -placed.boardCount, placed.boardsFromMin, placed.boardsUntilMin)
  return true
}
const presses = (a: Lot, b: Lot): boolean =>
  a.latestLoadMin < b.latestLoadMin ||
  (a.latestLoadMin === b.latestLoadMin &&
    (a.runId < b.runId || (a.runId === b.runId && (a.glazeId ?? '') < (b.glazeId ?? ''))))

function takeOut(bench: Bench, { lot, count, firing }: FiredLot): void {
  bench.lots.splice(bench.lots.indexOf(lot), 1)
  if (lot.kind === 'bisque') {
    const dry =
      lot.dryByDrawMin.filter((dryMin) => dryMin <= firing.loadMin).length / Math.max(1, lot.dryByDrawMin.length)
    bench.oddsDry.set(lot.runId, Math.min(dry, bench.oddsDry.get(lot.runId) ?? 1))
  }
  outOfKiln(bench, jobOf(bench.desk.given, lot.runId), lot.kind, lot.glazeId, count, firing.emptyMin)
  if (count < lot.count) bench.lots.push(stillWaiting(bench, lot, lot.count - count))
}

/** What a kiln had no room for. Which of it orders wait for shows once the others have been given their glazes. */
function stillWaiting({ portions }: Bench, lot: Lot, count: number): Lot {
  const waitedFor =
    lot.kind === 'bisque'
      ? (portions.get(lot.runId) ?? []).reduce((sum, { neededCount }) => sum + neededCount, 0)
      : lot.neededCount - (lot.count - count)
  return { ...lot, count, neededCount: Math.min(count, Math.max(0, waitedFor)) }
}
