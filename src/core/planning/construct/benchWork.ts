/** From kiln to kiln and out of the last one: what is done with ware that is no longer clay while one plan is built. */
import { compareCones, isCone } from '#core/firing/cones.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Design } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import { type GlazePortion, placeBenchSteps } from './bench.ts'
import { spendGlaze } from './clayStore.ts'
import type { Desk, Given, PlacedClay } from './desk.ts'
import { latestLoad, type Lot, scheduleOf } from './lots.ts'
import { isWantedSoon } from './runFacts.ts'

/** Pieces of a run that are packed at last, and when. */
export type Ready = {
  readonly runId: string
  readonly glazeId: string | null
  readonly count: number
  readonly minute: Minute
  readonly oddsDry: number
}

/** Pieces of a run that get no further, and why. `glazeId` undefined: whatever they were to bear. */
export type Stuck = {
  readonly runId: string
  readonly glazeId: string | null | undefined
  readonly count: number
  readonly reason: PlanningReason
}

export type Construction = {
  readonly desk: Desk
  readonly ready: readonly Ready[]
  readonly stuck: readonly Stuck[]
  /** By run: spare pieces that no kiln has room for, and that are not cut after all. */
  readonly uncut: ReadonlyMap<string, number>
}

/** Work in hand while one plan is built. */
export type Bench = {
  readonly desk: Desk
  readonly lots: Lot[]
  /** By run: glazes still to be given, the most urgent first. */
  readonly portions: Map<string, GlazePortion[]>
  readonly busyMin: ReadonlyMap<string, Readonly<Record<FiringKind, number>>>
  readonly ready: Ready[]
  readonly stuck: Stuck[]
  readonly uncut: Map<string, number>
  readonly oddsDry: Map<string, number>
}

/** The job of a run; undefined if nothing is to be brought about with it. */
export const jobOf = (given: Given, runId: string): Job | undefined => given.jobs.find(({ id }) => id === runId)

/** Clay as placed, waiting for its bisque. */
export function bisqueLot(bench: Bench, { job, dryMin, boardsUntilMin, dryByDrawMin }: PlacedClay): Lot {
  return {
    runId: job.id,
    design: job.design,
    kind: 'bisque',
    glazeId: null,
    count: job.count,
    neededCount: neededOf(job),
    isWantedSoon: isWantedSoon(job, bench.desk.leaning.soonOrderIds),
    readyMin: dryMin,
    latestLoadMin: latestLoadOf(bench, job, 'bisque'),
    boardsUntilMin,
    dryByDrawMin,
  }
}

/** Glazed ware, waiting for its firing. */
export const glazeLot = (
  bench: Bench,
  job: Job,
  glazeId: string | null,
  count: number,
  neededCount: number,
  readyMin: Minute,
): Lot => ({
  runId: job.id,
  design: job.design,
  kind: 'glaze',
  glazeId,
  count,
  neededCount,
  isWantedSoon: isWantedSoon(job, bench.desk.leaning.soonOrderIds),
  readyMin,
  latestLoadMin: latestLoadOf(bench, job, 'glaze'),
  boardsUntilMin: Number.POSITIVE_INFINITY,
  dryByDrawMin: [],
})

function latestLoadOf(bench: Bench, job: Job, kind: FiringKind): Minute {
  const { horizonMin, studio } = bench.desk.given
  return latestLoad(
    kind,
    Math.min(job.dueMin, horizonMin),
    bench.busyMin.get(job.design.id)!,
    studio.rules.glazeDryHours,
  )
}

/** Pieces of a job that orders wait for. */
export const neededOf = ({ allotments }: Job): number => allotments.reduce((sum, { count }) => sum + count, 0)

/** What comes out of a kiln goes on to the glaze bench, or to be packed. */
export function outOfKiln(
  bench: Bench,
  job: Job | undefined,
  kind: FiringKind,
  glazeId: string | null,
  count: number,
  emptyMin: Minute,
): void {
  if (!job) return
  if (kind === 'bisque') toGlaze(bench, job, count, emptyMin)
  else toPack(bench, job, glazeId, count, emptyMin)
}

/** Bisque is glazed as its run's allotments ask, the most urgent first, and dries. */
export function toGlaze(bench: Bench, job: Job, count: number, fromMin: Minute): void {
  const { desk } = bench
  const queue = bench.portions.get(job.id) ?? []
  let left = count
  while (left > 0 && queue.length > 0) {
    const portion = queue[0]!
    const taken = Math.min(left, portion.count)
    if (taken === portion.count) queue.shift()
    else queue[0] = { ...portion, count: portion.count - taken, neededCount: Math.max(0, portion.neededCount - taken) }
    left -= taken
    glazeSome(
      bench,
      job,
      { ...portion, count: taken, neededCount: Math.min(taken, portion.neededCount) },
      Math.max(fromMin, desk.given.nowMin),
    )
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

/** Grinding, looking over, packing. */
export function toPack(bench: Bench, job: Job, glazeId: string | null, count: number, fromMin: Minute): void {
  const { desk, ready, stuck } = bench
  const packed = placeBenchSteps(
    desk,
    job.id,
    job.design,
    glazeId,
    count,
    ['finish', 'pack'],
    Math.max(fromMin, desk.given.nowMin),
  )
  if (!packed) stuck.push({ runId: job.id, glazeId, count, reason: handsReason(desk, job.design, 'finish') })
  else ready.push({ runId: job.id, glazeId, count, minute: packed.doneMin, oddsDry: bench.oddsDry.get(job.id) ?? 1 })
}

function handsReason(desk: Desk, design: Design, kind: 'glaze' | 'finish'): PlanningReason {
  const step = design.steps.find((candidate) => candidate.kind === kind) ?? design.steps.at(-1)!
  return { code: 'no-making-hours', params: { work: step.needs } }
}
