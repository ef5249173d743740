/** What a plan has to bring about, run by run: those under way, and those to be begun for orders. */
import { countToStart } from '#core/clay/losses.ts'
import type { LogState, RunStage, RunState } from '#core/logbook/state.ts'
import type { Design, Studio } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { dueOf, type LineNeed, needsOf, newRunId } from './needs.ts'
import type { Allotment } from './plan.ts'

/** One run to be brought to its end: under way, still to be begun, or bisque taken from the shelf. */
export type Job = {
  readonly id: string
  readonly design: Design
  /** Where its pieces are; `begun` for what is still to be cut. */
  readonly stage: RunStage
  /** What the logbook has of it; null for a run to be begun and for bisque from the shelf. */
  readonly state: RunState | null
  /** Pieces to start, or alive. */
  readonly count: number
  readonly allotments: readonly Allotment[]
  /** The earliest date among its allotments; Infinity if nobody waits for it. */
  readonly dueMin: Minute
  readonly weight: number
}

export type Jobs = { readonly jobs: readonly Job[]; readonly needs: readonly LineNeed[] }

/** Orders for one design this close together share a run. Our choice. */
const SHARED_RUN_DAYS = 12

/**
 * Every run there is to bring to its end, most urgent first.
 * @param mostOdds runs are begun with spare pieces for the odds that orders want, but for no more than these
 */
export function jobsOf(studio: Studio, state: LogState, mostOdds: number): Jobs {
  const { needs, allotmentsByRun } = needsOf(studio, state)
  const designs = new Map(studio.designs.map((design) => [design.id, design]))
  const underWay = state.runs
    .filter(({ stage, count, designId }) => stage !== 'gone' && count > 0 && designs.has(designId))
    .map((run) =>
      jobOf(run.id, designs.get(run.designId)!, run, run.stage, run.count, allotmentsByRun.get(run.id) ?? [], needs),
    )
  const begun = studio.designs.flatMap((design) => newRuns(design, needs, state, mostOdds))
  const fromShelf = studio.designs.flatMap((design) => shelfJobs(design, needs))
  const byUrgency = (a: Job, b: Job) => a.dueMin - b.dueMin || b.weight - a.weight || (a.id < b.id ? -1 : 1)
  return { jobs: [...underWay, ...fromShelf, ...begun].toSorted(byUrgency), needs }
}

/**
 * Pieces to begin, because some will be lost: so many that every order comes to its share at the odds that it wants, the
 * first served first. Windows that may be missed are not made up for by more pieces.
 */
function startCount(design: Design, shares: readonly Share[], mostOdds: number): number {
  let good = 0
  return Math.max(
    ...shares.map(({ need, count }) =>
      countToStart((good += count), Math.min(need.order.oddsWanted, mostOdds), design.losses),
    ),
  )
}

/** Runs to begin for a design: its needs in rising date, those close together shared out evenly over as few runs as hold them. */
function newRuns(design: Design, needs: readonly LineNeed[], state: LogState, mostOdds: number): Job[] {
  const open = needs.filter((need) => need.design.id === design.id && need.toBegin > 0)
  const shares = closeTogether(open).flatMap((near) => evenShares(near, goodThatFits(design, near, mostOdds)))
  // Runs of the logbook count too, so that a name is not given twice while its first bearer is alive.
  const first = 1 + state.runs.filter(({ designId }) => designId === design.id).length
  return shares.map((share, index) => {
    const allotments = share.map(({ need, count }) => allotmentOf(need, count))
    return jobOf(
      newRunId(design.id, first + index),
      design,
      null,
      'begun',
      startCount(design, share, mostOdds),
      allotments,
      needs,
    )
  })
}

/** Needs in rising date, parted where one is more than `SHARED_RUN_DAYS` after the first of its group. */
function closeTogether(needs: readonly LineNeed[]): LineNeed[][] {
  const groups: LineNeed[][] = []
  for (const need of needs.toSorted((a, b) => dueOf(a) - dueOf(b))) {
    const group = groups.at(-1)
    if (group && dueOf(need) - dueOf(group[0]!) <= SHARED_RUN_DAYS * MIN_PER_DAY) group.push(need)
    else groups.push([need])
  }
  return groups
}

/** What of a need one run is begun for. */
type Share = { readonly need: LineNeed; readonly count: number }

function evenShares(needs: readonly LineNeed[], most: number): Share[][] {
  const total = needs.reduce((sum, { toBegin }) => sum + toBegin, 0)
  const runs = Math.ceil(total / most)
  const shares: Share[][] = [[]]
  let room = Math.ceil(total / runs)
  for (const need of needs) {
    let left = need.toBegin
    while (left > 0) {
      if (room === 0) {
        shares.push([])
        room = Math.ceil(total / runs)
      }
      const count = Math.min(left, room)
      shares.at(-1)!.push({ need, count })
      left -= count
      room -= count
    }
  }
  return shares
}

/** The most good pieces that one run can be planned for: what is begun for them may not exceed the design's largest run. */
function goodThatFits(design: Design, needs: readonly LineNeed[], mostOdds: number): number {
  const oddsWanted = Math.min(mostOdds, Math.max(...needs.map(({ order }) => order.oddsWanted)))
  let good = Math.max(1, design.mostPerRun)
  while (good > 1 && countToStart(good, oddsWanted, design.losses) > design.mostPerRun) good--
  return good
}

/** Bisque that belongs to no run, as far as orders take it; the rest stays where it is. */
function shelfJobs(design: Design, needs: readonly LineNeed[]): Job[] {
  const taken = needs.filter((need) => need.design.id === design.id && need.fromBisque > 0)
  if (taken.length === 0) return []
  const allotments = taken.map((need) => allotmentOf(need, need.fromBisque))
  const count = allotments.reduce((sum, allotment) => sum + allotment.count, 0)
  return [jobOf(`shelf:${design.id}`, design, null, 'bisque', count, allotments, needs)]
}

const allotmentOf = ({ order, line, design }: LineNeed, count: number): Allotment => ({
  orderId: order.id,
  orderLineId: line.id,
  count,
  glazeId: line.glazeId ?? design.glazeIds[0] ?? null,
})

function jobOf(
  id: string,
  design: Design,
  state: RunState | null,
  stage: RunStage,
  count: number,
  allotments: readonly Allotment[],
  needs: readonly LineNeed[],
): Job {
  const orders = needs
    .filter(({ line }) => allotments.some(({ orderLineId }) => orderLineId === line.id))
    .map(({ order }) => order)
  return {
    id,
    design,
    stage,
    state,
    count,
    allotments,
    dueMin: Math.min(Number.POSITIVE_INFINITY, ...orders.map(({ packedByMin }) => packedByMin)),
    weight: Math.max(1, ...orders.map(({ weight }) => weight)),
  }
}
