/**
 * One plan, built in one go: kilns already loaded, then clay (it cannot wait), then firings by the date that presses
 * most, with glazing and finishing between. How it leans is given; improvement tries other leanings.
 */
import { compareCones, isCone } from '#core/firing/cones.ts'
import { firingTimes } from '#core/firing/times.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Design } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import { fullLoadOf } from '../facts/pieces.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import { glazePortions, type GlazePortion, placeBenchSteps } from './bench.ts'
import { boardsOf, placeAsShown, placeClay, spotNow } from './clayChain.ts'
import { spendGlaze } from './clayStore.ts'
import { type Desk, freshDesk, type Given, type Leaning, type PlacedClay, takeBoards } from './desk.ts'
import { fireAsShown, fireLot, type FiredLot } from './firings.ts'
import { latestLoad, type Lot, scheduleOf } from './lots.ts'
import { placeFiringsUnderWay } from './underWay.ts'

/** Pieces of a run that are packed at last, and when. */
export type Ready = { readonly runId: string; readonly glazeId: string | null; readonly count: number; readonly minute: Minute; readonly oddsDry: number }

/** Pieces of a run that get no further, and why. `glazeId` undefined: whatever they were to bear. */
export type Stuck = { readonly runId: string; readonly glazeId: string | null | undefined; readonly count: number; readonly reason: PlanningReason }

export type Construction = { readonly desk: Desk; readonly ready: readonly Ready[]; readonly stuck: readonly Stuck[] }

/** Work in hand while one plan is built. */
type Bench = {
  readonly desk: Desk
  readonly lots: Lot[]
  /** By run: glazes still to be given, the most urgent first, spare pieces last. */
  readonly portions: Map<string, GlazePortion[]>
  readonly busyMin: ReadonlyMap<string, Readonly<Record<FiringKind, number>>>
  readonly ready: Ready[]
  readonly stuck: Stuck[]
  readonly oddsDry: Map<string, number>
}

/** Builds a plan. The same given and leaning give the same plan. */
export function construct(given: Given, leaning: Leaning): Construction {
  const desk = freshDesk(given, leaning)
  const bench: Bench = { desk, lots: [], portions: new Map(), busyMin: busyTimes(given), ready: [], stuck: [], oddsDry: new Map() }
  for (const job of given.jobs) {
    const design = job.design
    bench.portions.set(job.id, glazePortions(design, job.count, job.allotments))
  }
  for (const out of placeFiringsUnderWay(desk)) outOfKiln(bench, jobOf(given, out.runId), out.kind, out.glazeId, out.count, out.emptyMin)
  const order = inOrder(given, leaning)
  const kept = leaning.holds ? order.filter((job) => keepAsShown(bench, job)) : []
  for (const job of order) if (!kept.includes(job)) beginJob(bench, job)
  fireAll(bench)
  return { desk, ready: bench.ready, stuck: bench.stuck }
}

const jobOf = (given: Given, runId: string): Job | undefined => given.jobs.find(({ id }) => id === runId)

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
      bench.lots.push(glazeLot(bench, job, job.state?.glazeId ?? null, job.count, neededOf(job), Math.max(desk.given.nowMin, dryMin)))
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

function bisqueLot(bench: Bench, { job, dryMin, boardsUntilMin, dryByDrawMin }: PlacedClay): Lot {
  return {
    runId: job.id,
    design: job.design,
    kind: 'bisque',
    glazeId: null,
    count: job.count,
    neededCount: neededOf(job),
    readyMin: dryMin,
    latestLoadMin: latestLoadOf(bench, job, 'bisque'),
    boardsUntilMin,
    dryByDrawMin,
  }
}

const glazeLot = (bench: Bench, job: Job, glazeId: string | null, count: number, neededCount: number, readyMin: Minute): Lot => ({
  runId: job.id,
  design: job.design,
  kind: 'glaze',
  glazeId,
  count,
  neededCount,
  readyMin,
  latestLoadMin: latestLoadOf(bench, job, 'glaze'),
  boardsUntilMin: Number.POSITIVE_INFINITY,
  dryByDrawMin: [],
})

function latestLoadOf(bench: Bench, job: Job, kind: FiringKind): Minute {
  const { horizonMin, studio } = bench.desk.given
  return latestLoad(kind, Math.min(job.dueMin, horizonMin), bench.busyMin.get(job.design.id)!, studio.rules.glazeDryHours)
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
      bench.lots.splice(bench.lots.indexOf(lot), 1)
      if (lot.kind === 'bisque') dropRun(bench.desk, lot.runId)
      bench.stuck.push({ runId: lot.runId, glazeId: lot.kind === 'glaze' ? lot.glazeId : undefined, count: lot.count, reason: fired })
    } else for (const out of fired) takeOut(bench, out)
  }
  for (const lot of bench.lots) {
    const reason: PlanningReason = { code: 'waits-for-room', params: { count: lot.count } }
    bench.stuck.push({ runId: lot.runId, glazeId: lot.kind === 'glaze' ? lot.glazeId : undefined, count: lot.count, reason })
  }
}

/** A run that no kiln would take in time is not begun at all; one that is under way or partly fired goes on lying. */
function dropRun(desk: Desk, runId: string): void {
  const placed = desk.clay.get(runId)
  const isFired = desk.firings.some(({ members }) => members.some((member) => member.runId === runId))
  if (!placed || placed.job.stage !== 'begun' || isFired) return
  desk.clay.delete(runId)
  desk.tasks.splice(0, desk.tasks.length, ...desk.tasks.filter((task) => task.runId !== runId))
  takeBoards(desk, placed.spotId, -placed.boardCount, placed.boardsFromMin, placed.boardsUntilMin)
}

const neededOf = ({ allotments }: Job): number => allotments.reduce((sum, { count }) => sum + count, 0)

const presses = (a: Lot, b: Lot): boolean =>
  a.latestLoadMin < b.latestLoadMin || (a.latestLoadMin === b.latestLoadMin && (a.runId < b.runId || (a.runId === b.runId && (a.glazeId ?? '') < (b.glazeId ?? ''))))

function takeOut(bench: Bench, { lot, count, firing }: FiredLot): void {
  const at = bench.lots.indexOf(lot)
  if (count < lot.count) bench.lots[at] = { ...lot, count: lot.count - count, neededCount: Math.max(0, lot.neededCount - count) }
  else bench.lots.splice(at, 1)
  if (lot.kind === 'bisque') {
    const dry = lot.dryByDrawMin.filter((dryMin) => dryMin <= firing.loadMin).length / Math.max(1, lot.dryByDrawMin.length)
    bench.oddsDry.set(lot.runId, Math.min(dry, bench.oddsDry.get(lot.runId) ?? 1))
  }
  outOfKiln(bench, jobOf(bench.desk.given, lot.runId), lot.kind, lot.glazeId, count, firing.emptyMin)
}

function outOfKiln(bench: Bench, job: Job | undefined, kind: FiringKind, glazeId: string | null, count: number, emptyMin: Minute): void {
  if (!job) return
  if (kind === 'bisque') toGlaze(bench, job, count, emptyMin)
  else toPack(bench, job, glazeId, count, emptyMin)
}

/** Bisque is glazed as its run's allotments ask, the most urgent first, and dries. */
function toGlaze(bench: Bench, job: Job, count: number, fromMin: Minute): void {
  const { desk } = bench
  const queue = bench.portions.get(job.id) ?? []
  let left = count
  while (left > 0 && queue.length > 0) {
    const portion = queue[0]!
    const taken = Math.min(left, portion.count)
    if (taken === portion.count) queue.shift()
    else queue[0] = { ...portion, count: portion.count - taken, neededCount: Math.max(0, portion.neededCount - taken) }
    left -= taken
    glazeSome(bench, job, { ...portion, count: taken, neededCount: Math.min(taken, portion.neededCount) }, Math.max(fromMin, desk.given.nowMin))
  }
}

function glazeSome(bench: Bench, job: Job, { glazeId, count, neededCount }: GlazePortion, fromMin: Minute): void {
  const { desk, stuck } = bench
  const { design } = job
  const unsuited = glazeTrouble(desk, design, glazeId)
  const short = unsuited ?? spendGlaze(desk, design, glazeId, count)
  if (short) {
    stuck.push({ runId: job.id, glazeId, count, reason: short })
    return
  }
  const glazed = placeBenchSteps(desk, job.id, design, glazeId, count, ['glaze'], fromMin)
  if (!glazed) {
    stuck.push({ runId: job.id, glazeId, count, reason: handsReason(desk, design, 'glaze') })
    return
  }
  const dryHours = glazed.tasks.length > 0 ? desk.given.studio.rules.glazeDryHours : 0
  bench.lots.push(glazeLot(bench, job, glazeId, count, neededCount, glazed.doneMin + dryHours * MIN_PER_HOUR))
}

/** A glaze that the design's firing would not mature, or would run. */
function glazeTrouble(desk: Desk, design: Design, glazeId: string | null): PlanningReason | null {
  const glaze = desk.given.studio.glazes.find(({ id }) => id === glazeId)
  const schedule = scheduleOf(desk.given.studio, design, 'glaze')
  if (!glaze || !schedule?.cone || !isCone(glaze.coneLow) || !isCone(glaze.coneHigh)) return null
  const suits = compareCones(glaze.coneLow, schedule.cone) <= 0 && compareCones(schedule.cone, glaze.coneHigh) <= 0
  return suits ? null : { code: 'glaze-does-not-suit', params: { glaze: glaze.name, schedule: schedule.name } }
}

function toPack(bench: Bench, job: Job, glazeId: string | null, count: number, fromMin: Minute): void {
  const { desk, ready, stuck } = bench
  const packed = placeBenchSteps(desk, job.id, job.design, glazeId, count, ['finish', 'pack'], Math.max(fromMin, desk.given.nowMin))
  if (!packed) stuck.push({ runId: job.id, glazeId, count, reason: handsReason(desk, job.design, 'finish') })
  else ready.push({ runId: job.id, glazeId, count, minute: packed.doneMin, oddsDry: bench.oddsDry.get(job.id) ?? 1 })
}

function handsReason(desk: Desk, design: Design, kind: 'glaze' | 'finish'): PlanningReason {
  const step = design.steps.find((candidate) => candidate.kind === kind) ?? design.steps.at(-1)!
  return { code: 'no-making-hours', params: { work: step.needs } }
}

/** From lighting until bare hands can unload, by design and kind, in the slowest kiln that fires it. */
function busyTimes({ studio }: Given): ReadonlyMap<string, Readonly<Record<FiringKind, number>>> {
  const known = new Map<string, number>()
  const busy = (design: Design, kind: FiringKind): number => {
    const schedule = scheduleOf(studio, design, kind)
    if (!schedule) return 2 * MIN_PER_DAY
    const key = `${schedule.id} ${kind}`
    const longest = known.get(key) ?? Math.max(0, ...studio.kilns.filter(({ fires }) => fires.includes(kind)).map((kiln) => {
      const outcome = firingTimes(schedule, kiln.firing, fullLoadOf(kiln, kind))
      return outcome.kind === 'times' ? outcome.times.unloadMin : 0
    }))
    known.set(key, longest)
    return longest
  }
  return new Map(studio.designs.map((design) => [design.id, { bisque: busy(design, 'bisque'), glaze: busy(design, 'glaze') }]))
}
