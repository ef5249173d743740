import { seededRng } from '#core/rng.ts'
import { stepOf } from '../angles.ts'
import { ANGLE_STEPS } from '../types.ts'
import { bedOf, MARGIN_MM, missEnergy, turnOf, turnShare, type Bed, type SqueezeTask } from './bed.ts'
import { areClear } from './clear.ts'
import { descend, descentRoom, type DescentRoom } from './descend.ts'
import { missesAt, moveSome, raiseWeights, relocate, type Mover } from './moves.ts'

/** Where a piece stands. */
export type Stance = { readonly xMm: number; readonly yMm: number; readonly angleIndex: number }

export type SqueezeSearch = {
  readonly seed: number
  /** Descents at most; each is some dozens of evaluations of all pairs. */
  readonly descents: number
  /** Asked before each; true ends the search. */
  readonly cancelled?: () => boolean
}

/** Energy at which every miss is less than half the margin, so that all gaps are kept. */
const ENOUGH = (MARGIN_MM / 2) ** 2
/** Descents without a lower energy after which the search returns to the lowest. */
const PATIENCE = 100

/**
 * Squeezes pieces onto a shelf that is nearly too small: all move and turn at once to push overlaps apart, overlaps that
 * last weigh ever more, and now and then a piece is set elsewhere or two change places.
 *
 * The packer of loads does not call it: squeezing what was left out in after `thorough` placed 0.5 % more ware in 0.22 s,
 * and as much time spent on more rounds of ruin and recreate 0.6 % (48 loads of three kilns; both together no more than
 * either). It serves single shelves that are nearly too small, and circles.
 * @param start where each piece stands, overlapping or not; undefined: not yet anywhere
 * @returns stances at steps of the angle table, proved clear of each other, of the obstacles and of the edge; undefined
 *   when none was found, which proves nothing. The same start, seed and descents give the same answer.
 * @see ideas: weights and moves of arXiv 2509.13329, swap and insert of arXiv 1306.0694
 */
export function squeeze(
  task: SqueezeTask,
  start: readonly (Stance | undefined)[],
  search: SqueezeSearch,
): readonly Stance[] | undefined {
  if (start.length !== task.pieces.length) throw new RangeError('as many stances as pieces are needed')
  const size = 3 * task.pieces.length
  const room = descentRoom(size)
  const bed = bedOf(task)
  const mover: Mover = { bed, rng: seededRng(search.seed), scratch: new Float64Array(size) }
  let x = startOf(mover, start)
  settle(bed, x, room)
  let low = x
  let lowest = Infinity
  let stalled = 0
  for (let descent = 0; descent < search.descents && !search.cancelled?.(); descent++) {
    const { misses, energy } = missesAt(mover, x)
    const stances = energy <= ENOUGH ? stancesNear(bed, x, room) : undefined
    if (stances !== undefined) return stances
    stalled++
    if (energy < 0.98 * lowest) {
      lowest = energy
      low = x
      stalled = 0
    }
    raiseWeights(bed, misses)
    if (stalled % PATIENCE === PATIENCE - 1) x = low
    const next = x.slice()
    moveSome(mover, next, misses)
    const nextEnergy = settle(bed, next, room)
    if (nextEnergy <= 1.02 * missEnergy(bed, x, mover.scratch) || mover.rng.next() < 0.05) x = next
  }
  return undefined
}

function settle(bed: Bed, x: Float64Array, room: DescentRoom): number {
  const energy = (at: Float64Array, slope: Float64Array) => missEnergy(bed, at, slope)
  return descend(energy, x, { iterations: 40, enough: ENOUGH, leastGain: 1e-6, longestStep: 40 }, room)
}

/** Variables of the stances; pieces without one are set in last, the largest first. */
function startOf(mover: Mover, start: readonly (Stance | undefined)[]): Float64Array {
  const { pieces } = mover.bed.task
  const x = new Float64Array(3 * pieces.length)
  // Out of everybody's way until its turn comes.
  start.forEach((stance, i) => {
    const { xMm, yMm, angleIndex } = stance ?? { xMm: 1e6 * (i + 1), yMm: 1e6, angleIndex: 0 }
    x.set([xMm, yMm, turnOf(pieces[i]!.outline, angleIndex / ANGLE_STEPS)], 3 * i)
  })
  const loose = pieces.map((_, i) => i).filter((i) => start[i] === undefined)
  loose.sort((a, b) => pieces[b]!.outline.areaMm2 - pieces[a]!.outline.areaMm2 || a - b)
  for (const i of loose) relocate(mover, x, i)
  return x
}

/** The same layout with all angles at whole steps, moved apart again where that made them touch; undefined: not clear. */
function stancesNear(bed: Bed, x: Float64Array, room: DescentRoom): readonly Stance[] | undefined {
  const settled = x.slice()
  const steps = bed.bodies.map((body, i) => Math.round(turnShare(body, x[3 * i + 2]!) * ANGLE_STEPS))
  steps.forEach((step, i) => (settled[3 * i + 2] = turnOf(bed.bodies[i]!, step / ANGLE_STEPS)))
  const fixed = { ...bed, bodies: bed.bodies.map((body) => ({ ...body, canTurn: false })) }
  if (settle(fixed, settled, room) > ENOUGH) return undefined
  const stances = steps.map((step, i) => ({
    xMm: settled[3 * i]!,
    yMm: settled[3 * i + 1]!,
    angleIndex: stepOf(step),
  }))
  return areClear(bed.task, stances) ? stances : undefined
}
