/** From a construction to what a plan says: runs, promises, what was left out, and what it costs. */
import type { LossRates } from '#core/clay/types.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { clayOf } from '../facts/pieces.ts'
import type { Job } from '../jobs.ts'
import type { LineNeed } from '../needs.ts'
import type { Allotment, Costs, LeftOut, OrderPromise, Plan, PlannedRun } from '../plan.ts'
import { distinctReasons, type PlanningReason } from '../reasons.ts'
import type { Construction } from './benchWork.ts'
import type { Given, PlacedClay } from './desk.ts'
import { latestSlot } from './diary.ts'
import { lineOdds, type Source } from './lineOdds.ts'

/** Before its date, to put a lost piece into a later load. Common practice, no source. */
const SPARE_DAYS = 10

export type Outcome = Pick<Plan, 'tasks' | 'kilnTasks' | 'runs' | 'firings' | 'promises' | 'leftOut' | 'costs'>

/** What becomes of one allotment: pieces packed, when, at what odds; the rest is stuck. */
type Served = {
  readonly job: Job
  readonly allotment: Allotment
  readonly lots: readonly { readonly count: number; readonly minute: Minute }[]
  readonly missing: number
  readonly source: Source
}

export function outcomeOf(given: Given, construction: Construction, needs: readonly LineNeed[]): Outcome {
  const { desk, stuck, uncut } = construction
  const jobs = given.jobs.map((job) => ({ ...job, count: job.count - (uncut.get(job.id) ?? 0) }))
  const served = jobs.flatMap((job) => servedBy(job, construction))
  const promises = needs.map((need) => promiseOf(given, need, served, construction))
  const leftOut = leftOutOf(given, served, stuck)
  const runs = jobs.map((job) => plannedRun(given, job, construction))
  const rising = <Item extends { readonly startMin: Minute; readonly id: string }>(items: readonly Item[]) =>
    items.toSorted((a, b) => a.startMin - b.startMin || (a.id < b.id ? -1 : 1))
  const tasks = rising(desk.tasks)
  const firings = desk.firings.toSorted((a, b) => a.loadMin - b.loadMin || (a.id < b.id ? -1 : 1))
  return {
    tasks,
    kilnTasks: rising(desk.kilnTasks),
    runs,
    firings,
    promises,
    leftOut,
    costs: costsOf(given, { tasks, firings, promises, runs }, served),
  }
}

/** Shares a run's packed pieces out over its allotments, soonest to the most urgent. */
function servedBy(job: Job, { ready, desk }: Construction): Served[] {
  const piles = ready
    .filter(({ runId }) => runId === job.id)
    .toSorted((a, b) => a.minute - b.minute)
    .map((pile) => ({ ...pile, left: pile.count }))
  const clay = desk.clay.get(job.id)
  const dry = Math.min(1, ...piles.map(({ oddsDry }) => oddsDry))
  let before = 0
  return job.allotments.map((allotment) => {
    const lots: { count: number; minute: Minute }[] = []
    let missing = allotment.count
    for (const pile of piles) {
      if (pile.glazeId !== allotment.glazeId && pile.glazeId !== null) continue
      const count = Math.min(missing, pile.left)
      if (count === 0) continue
      pile.left -= count
      missing -= count
      lots.push({ count, minute: pile.minute })
    }
    const source = { started: job.count, before, losses: lossesLeft(job), holdsOdds: (clay?.windowOdds ?? 1) * dry }
    before += allotment.count
    return { job, allotment, lots, missing, source }
  })
}

/** Losses of the stages that a run has still before it. */
function lossesLeft({ design, stage }: Job): LossRates {
  const { losses } = design
  switch (stage) {
    case 'in bisque':
      return { ...losses, dryingRatio: 0 }
    case 'bisque':
    case 'glazed':
    case 'in glaze':
    case 'refire':
      return { ...losses, dryingRatio: 0, bisqueRatio: 0 }
    case 'fired':
      return { ...losses, dryingRatio: 0, bisqueRatio: 0, glazeRatio: 0, secondRatio: 0 }
    default:
      return losses
  }
}

function promiseOf(given: Given, need: LineNeed, served: readonly Served[], { desk }: Construction): OrderPromise {
  const { order, line, design } = need
  const mine = served.filter(({ allotment }) => allotment.orderLineId === line.id)
  const lots = mine.flatMap(({ lots: packed }) => packed)
  const isOnTime = ({ minute }: { readonly minute: Minute }) => minute <= order.packedByMin
  const onTime = lots.filter(isOnTime).reduce((sum, { count }) => sum + count, 0)
  const placed = lots.reduce((sum, { count }) => sum + count, 0)
  const shelfOnTime = given.nowMin <= order.packedByMin ? need.fromShelf : 0
  const readyMin = Math.max(
    ...lots.map(({ minute }) => minute),
    need.fromShelf > 0 ? given.nowMin : Number.NEGATIVE_INFINITY,
  )
  const lastCuts = mine.flatMap(({ job }) => lastSafeCut(desk.clay.get(job.id), desk, job))
  return {
    orderId: order.id,
    orderLineId: line.id,
    designId: design.id,
    wanted: need.owed,
    onTime: onTime + shelfOnTime,
    late: placed - onTime + (need.fromShelf - shelfOnTime),
    readyMin: Number.isFinite(readyMin) ? readyMin : null,
    odds:
      onTime + shelfOnTime === 0
        ? 0
        : lineOdds(
            onTime,
            mine.filter(({ lots: packed }) => packed.some(isOnTime)).map(({ source }) => source),
          ),
    lastSafeCutMin: lastCuts.length > 0 ? Math.min(...lastCuts) : null,
  }
}

/**
 * How far a cut still to come could slip: by as much as its ware waits for the bisque firing it is planned into, back to
 * hours in which somebody makes.
 */
function lastSafeCut(clay: PlacedClay | undefined, desk: Construction['desk'], job: Job): Minute[] {
  if (!clay || clay.cutMin === null || clay.cutMin < desk.given.nowMin || !Number.isFinite(job.dueMin)) return []
  const firing = desk.firings.find(
    ({ kind, members }) => kind === 'bisque' && members.some(({ runId }) => runId === job.id),
  )
  if (!firing) return []
  const couldSlipToMin = clay.cutMin + Math.max(0, firing.loadMin - clay.dryMin)
  const hours = desk.given.blank.diary
  return [latestSlot(hours, 'making', 'slab', 0, clay.cutMin, couldSlipToMin)?.startMin ?? clay.cutMin]
}

function leftOutOf(given: Given, served: readonly Served[], stuck: Construction['stuck']): LeftOut[] {
  const reasonsOf = (job: Job, glazeId: string | null): PlanningReason[] =>
    distinctReasons(
      stuck
        .filter(({ runId, glazeId: of }) => runId === job.id && (of === undefined || of === glazeId))
        .map(({ reason }) => reason),
    )
  const fromOrders = served
    .filter(({ missing }) => missing > 0)
    .map(({ job, allotment, missing }): LeftOut => ({
      orderId: allotment.orderId,
      orderLineId: allotment.orderLineId,
      runId: job.state ? job.id : null,
      designId: job.design.id,
      count: missing,
      reasons: reasonsOf(job, allotment.glazeId),
      remedies: [],
    }))
  const unasked = given.jobs
    .filter((job) => job.allotments.length === 0 && stuck.some(({ runId }) => runId === job.id))
    .map((job): LeftOut => ({
      orderId: null,
      orderLineId: null,
      runId: job.id,
      designId: job.design.id,
      count: job.count,
      reasons: distinctReasons(stuck.filter(({ runId }) => runId === job.id).map(({ reason }) => reason)),
      remedies: [],
    }))
  return [...fromOrders, ...unasked]
}

function plannedRun(given: Given, job: Job, { desk }: Construction): PlannedRun {
  const clay = desk.clay.get(job.id)
  const bisques = desk.firings.filter(
    ({ kind, underWay, members }) => kind === 'bisque' && !underWay && members.some(({ runId }) => runId === job.id),
  )
  const loaded = bisques.reduce(
    (sum, { members }) => sum + members.filter(({ runId }) => runId === job.id).reduce((n, { count }) => n + count, 0),
    0,
  )
  const lastLoadMin = loaded >= job.count ? Math.max(...bisques.map(({ loadMin }) => loadMin)) : given.horizonMin
  const onBoards = job.stage === 'clay' || job.stage === 'drying'
  const spotId = clay?.spotId ?? job.state?.waits.at(-1)?.spotId ?? ''
  const boardCount = Math.ceil(job.count / job.design.piecesPerBoard)
  const fromMin = clay ? clay.boardsFromMin : given.nowMin
  return {
    id: job.id,
    designId: job.design.id,
    underWay: job.state !== null,
    count: job.count,
    allotments: job.allotments,
    boards:
      clay || onBoards ? [{ spotId, boardCount, fromMin: Math.max(fromMin, given.nowMin), toMin: lastLoadMin }] : [],
    waits: clay?.waits ?? job.state?.waits ?? [],
    cutMin: clay?.cutMin ?? job.state?.cutMin ?? null,
    dryMin: clay?.dryMin ?? null,
    windowOdds: clay?.windowOdds ?? 1,
  }
}

/** The named costs of a plan, in their levels' order. Smaller is better. */
export function costsOf(
  given: Given,
  plan: Pick<Plan, 'tasks' | 'firings' | 'promises' | 'runs'>,
  served: readonly Served[],
): Costs {
  const { planningCase, studio } = given
  const weightOf = (orderId: string) => studio.orders.find(({ id }) => id === orderId)?.weight ?? 1
  const lateWeight = plan.promises.reduce(
    (sum, { orderId, wanted, onTime }) => sum + weightOf(orderId) * (wanted - onTime),
    0,
  )
  const lost = served
    .filter(({ job, missing }) => job.state !== null && missing > 0)
    .reduce((sum, { missing }) => sum + missing, 0)
  const shown =
    planningCase.basePlan?.tasks.filter(
      ({ startMin }) => startMin >= given.nowMin && startMin < planningCase.holdUntilMin,
    ) ?? []
  const kept = new Map(plan.tasks.map((task) => [task.id, task.startMin]))
  const newFirings = plan.firings.filter(({ underWay }) => !underWay)
  return {
    wareLost: lost,
    lateWeight,
    changes: shown.filter(({ id, startMin }) => kept.get(id) !== startMin).length,
    firings: newFirings.length,
    energyKwh: round(newFirings.reduce((sum, { energyKwh }) => sum + energyKwh, 0)),
    sessions: sessionsOf(given, plan),
    thinWindows: plan.runs.filter(({ windowOdds }) => windowOdds < 1).length,
    tightDates: round(pieceDays(served, (spareDays) => SPARE_DAYS - spareDays)),
    standingDays: round(pieceDays(served, (spareDays) => spareDays - SPARE_DAYS)),
  }
}

/** Summed over pieces that have a date: what is held of the days from their packing to it, never below 0. */
function pieceDays(served: readonly Served[], held: (spareDays: number) => number): number {
  return served.reduce((sum, { job, lots }) => {
    if (!Number.isFinite(job.dueMin)) return sum
    const days = lots.map(({ count, minute }) => count * Math.max(0, held((job.dueMin - minute) / MIN_PER_DAY)))
    return days.reduce((total, own) => total + own, sum)
  }, 0)
}

/** Blocks of work and set-ups: a new one begins with each gap, each change of work, and each change of clay while wet. */
function sessionsOf(given: Given, { tasks, runs }: Pick<Plan, 'tasks' | 'runs'>): number {
  const byMaker = new Map<string, (typeof tasks)[number][]>()
  for (const task of tasks) byMaker.set(task.makerId, [...(byMaker.get(task.makerId) ?? []), task])
  const designOf = new Map(runs.map(({ id, designId }) => [id, designId]))
  let count = 0
  for (const list of byMaker.values()) {
    let before: { endMin: Minute; what: string } | null = null
    for (const task of list.filter(({ kind }) => kind === 'step').toSorted((a, b) => a.startMin - b.startMin)) {
      const design = given.designs.get(designOf.get(task.runId) ?? '')
      const step = design?.steps.find(({ id }) => id === task.stepId)
      const clay = design && task.window !== null ? clayOf(given.studio, design)?.id : ''
      const what = `${step?.needs ?? ''} ${clay} ${task.glazeId ?? ''}`
      if (!before || task.startMin - before.endMin > 30 || before.what !== what) count++
      before = { endMin: task.endMin, what }
    }
  }
  return count
}

const round = (value: number): number => Math.round(value * 1000) / 1000
