/** From orders, shelf and runs under way to what is still to be made. */
import type { LogState, RunStage, RunState } from '#core/logbook/state.ts'
import type { Design, Order, OrderLine, Studio } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { yieldRatio } from './losses.ts'
import type { Allotment } from './plan.ts'

/** One line of one order with what of it is still open. */
export type LineNeed = {
  readonly order: Order
  readonly line: OrderLine
  readonly design: Design
  /** Pieces still owed to the line: ordered less delivered. */
  readonly owed: number
  /** Of those, standing finished on the shelf. */
  readonly fromShelf: number
  /** Of those, to come from runs under way, by run. */
  readonly fromRuns: readonly { readonly runId: string; readonly count: number }[]
  /** Of those, from bisque that belongs to no run. */
  readonly fromBisque: number
  /** Of those, to be begun. */
  readonly toBegin: number
}

/** What a run under way or bisque from the shelf is meant for; the rest is spare. */
export type Supply = {
  readonly allotmentsByRun: ReadonlyMap<string, readonly Allotment[]>
  readonly needs: readonly LineNeed[]
}

/** Stages nearest to being done first: an order takes what is furthest along. */
const stagesByProgress: readonly RunStage[] = [
  'fired',
  'in glaze',
  'glazed',
  'bisque',
  'in bisque',
  'drying',
  'clay',
  'begun',
]

/** Orders in the order in which they are served: by date, then weight, then id. */
export const byUrgency = (a: Order, b: Order): number =>
  a.packedByMin - b.packedByMin || b.weight - a.weight || (a.id < b.id ? -1 : 1)

/**
 * Serves every line from the shelf, then from runs under way (furthest along first), then from loose bisque; the rest is
 * to be begun. A run serves the pieces it can be expected to bring through; those begun against losses help out the line
 * it serves, so that one cracked pot does not start a run of one, but are not promised to anybody else.
 */
export function needsOf(studio: Studio, state: LogState): Supply {
  const shelf = shelfOf(state)
  const runs = runsByProgress(state, studio)
  const allotments = new Map<string, Allotment[]>()
  const given = state.delivered.map((delivery) => ({ ...delivery, left: delivery.count }))
  const needs: LineNeed[] = []
  for (const order of studio.orders.toSorted(byUrgency)) {
    for (const line of order.lines) {
      const design = studio.designs.find(({ id }) => id === line.designId)
      if (design) needs.push(serve(order, line, design, deliveredTo(order, line, given), shelf, runs, allotments))
    }
  }
  return { needs, allotmentsByRun: allotments }
}

type ShelfPile = { readonly designId: string; readonly stage: string; readonly glazeId: string | null; left: number }
/** `left` are pieces to be expected, `spare` those begun against losses. */
type RunPile = { readonly run: RunState; left: number; spare: number }

function serve(
  order: Order,
  line: OrderLine,
  design: Design,
  delivered: number,
  shelf: ShelfPile[],
  runs: RunPile[],
  allotments: Map<string, Allotment[]>,
): LineNeed {
  const owed = line.count - delivered
  let open = owed
  const takeFrom = (pile: { left: number }): number => {
    const count = Math.min(open, pile.left)
    pile.left -= count
    open -= count
    return count
  }
  const suits = (glazeId: string | null) => line.glazeId === null || glazeId === line.glazeId
  let fromShelf = 0
  for (const pile of shelf) {
    if (pile.stage === 'finished' && pile.designId === design.id && suits(pile.glazeId)) fromShelf += takeFrom(pile)
  }
  const fromRuns: { runId: string; count: number }[] = []
  let fromBisque = 0
  for (const pile of runs) {
    if (pile.run.designId !== design.id || (pile.run.glazeId !== null && !suits(pile.run.glazeId))) continue
    const expected = takeFrom(pile)
    if (expected === 0) continue
    const helped = open <= pile.spare ? open : 0
    pile.spare -= helped
    open -= helped
    const count = expected + helped
    fromRuns.push({ runId: pile.run.id, count })
    const glazeId = pile.run.glazeId ?? line.glazeId ?? design.glazeIds[0] ?? null
    const list = allotments.get(pile.run.id) ?? []
    allotments.set(pile.run.id, [...list, { orderId: order.id, orderLineId: line.id, count, glazeId }])
  }
  for (const pile of shelf) {
    if (pile.stage !== 'bisque' || pile.designId !== design.id) continue
    fromBisque += takeFrom(pile)
  }
  return { order, line, design, owed, fromShelf, fromRuns, fromBisque, toBegin: open }
}

type Given = LogState['delivered'][number] & { left: number }

/** Takes from what the order was given as much as this line asks for: a piece counts for one line only. */
function deliveredTo(order: Order, line: OrderLine, given: readonly Given[]): number {
  let delivered = 0
  for (const pile of given) {
    const suits = line.glazeId === null || pile.glazeId === line.glazeId
    if (pile.orderId !== order.id || pile.designId !== line.designId || !suits) continue
    const count = Math.min(pile.left, line.count - delivered)
    pile.left -= count
    delivered += count
  }
  return delivered
}

/** What stands on the shelf, to be taken from. */
const shelfOf = ({ shelf }: LogState): ShelfPile[] =>
  shelf.map(({ designId, stage, glazeId, count }) => ({ designId, stage, glazeId, left: count }))

function runsByProgress(state: LogState, studio: Studio): RunPile[] {
  return state.runs
    .filter(({ stage, count }) => stagesByProgress.includes(stage) && count > 0)
    .toSorted(
      (a, b) =>
        stagesByProgress.indexOf(a.stage) - stagesByProgress.indexOf(b.stage) ||
        (a.cutMin ?? Number.POSITIVE_INFINITY) - (b.cutMin ?? Number.POSITIVE_INFINITY) ||
        (a.id < b.id ? -1 : 1),
    )
    .map((run) => {
      const design = studio.designs.find(({ id }) => id === run.designId)
      const left = design ? Math.max(1, Math.floor(run.count * yieldRatio(design.losses, run.stage))) : 0
      return { run, left, spare: design ? run.count - left : 0 }
    })
}

/** Runs to begin are named by their design and number, so that a plan made again names them alike. */
export const newRunId = (designId: string, number: number): string => `new:${designId}:${number}`

/** The latest moment that still counts as on time for a need. */
export const dueOf = ({ order }: LineNeed): Minute => order.packedByMin
