/** A run's way through its clay steps, step by step; nothing is booked here. */
import type { CoverKind, StepBand } from '#core/drying/types.ts'
import type { DesignStep, Spot } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { Job } from '../jobs.ts'
import type { PlannedRun, RunTask } from '../plan.ts'
import type { PlanningReason } from '../reasons.ts'
import { stepMin } from './bench.ts'

import { type Desk, stepTask } from './desk.ts'
import type { Slot } from './diary.ts'
import { mouldsFree } from './moulds.ts'
import { legsOfChain } from './replay.ts'
import type { Leg } from './settle.ts'
import { wantedSlot } from './starts.ts'
import { findWait, type Wait } from './wait.ts'
import type { ClayPath, Ware } from './wares.ts'

/** A chain on its way: what is done and how the clay is after it. */
export type Chain = {
  readonly ware: Ware
  readonly spot: Spot
  readonly path: ClayPath
  readonly legs: readonly Leg[]
  readonly held: readonly boolean[]
  readonly tasks: readonly RunTask[]
  readonly waits: PlannedRun['waits']
}

const anyBand: StepBand = { from: 'any', to: 'any' }

/** Indexes of the parts that a step needs. */
function partsOf({ design }: Job, { partIds }: DesignStep): number[] {
  return design.parts.flatMap(({ id }, p) => (partIds.length === 0 || partIds.includes(id) ? [p] : []))
}

/** The chain with one more step done, or why it cannot be. */
export function afterStep(desk: Desk, job: Job, chain: Chain, step: DesignStep, odds: number): Chain | PlanningReason {
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
    decidesAtOnce: chain.legs.length > 0 && chain.tasks.length > 0,
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
  const waiting = covered(
    chain,
    wait.covering.first,
    spotId,
    chain.path.minute,
    wait.parksAtOnce ? wait.parkWhen : null,
  )
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
  const changes = wait.lookIns.flatMap(({ slot, cover }) =>
    cover !== null && slot.endMin < parkedMin ? [{ fromMin: slot.endMin, cover, spotId }] : [],
  )
  const parked =
    wait.parkedAtMin !== null && wait.parkWhen
      ? [{ fromMin: wait.parkedAtMin, cover: wait.parkWhen.cover, spotId }]
      : []
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
export const lookInId = ({ startMin }: Slot): string => `look-in:${startMin}`

function legOf(
  job: Job,
  chain: Chain,
  step: DesignStep,
  { covering, lookIns, parkWhen, parksAtOnce, slot }: Wait,
): Leg {
  return {
    fromMin: chain.path.minute,
    spotId: chain.spot.id,
    cover: chain.tasks.length > 0 ? covering.first : null,
    over: chain.waits.at(-1)?.cover ?? covering.first,
    parkWhen,
    parksAtOnce,
    visits: lookIns.map(({ slot: { startMin, endMin }, parks, cover }) => ({
      startMin,
      endMin,
      parks: parks && parkWhen !== null,
      cover,
    })),
    work: { fromMin: slot.startMin, toMin: slot.endMin, band: step.band ?? anyBand, partIndexes: partsOf(job, step) },
  }
}

/** Sets the cover that begins at `fromMin`, by the task that ends then; a run under way that keeps its cover needs none. */
export function covered(
  chain: Chain,
  cover: CoverKind,
  spotId: string,
  fromMin: Minute,
  parkWhen: RunTask['parkWhen'] = null,
): Pick<Chain, 'tasks' | 'waits'> {
  const last = chain.tasks.at(-1)
  if (!last) return { tasks: chain.tasks, waits: chain.waits }
  const tasks = [...chain.tasks.slice(0, -1), { ...last, after: { cover, spotId }, parkWhen }]
  return { tasks, waits: [...chain.waits, { fromMin, cover, spotId }] }
}

/** The chain that was shown, walked again from where the clay is. */
export function replayed(job: Job, start: Chain, shown: readonly RunTask[]): Chain {
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
