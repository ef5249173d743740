import type { Rng } from '#core/rng.ts'
import { angleChoices } from '../outline.ts'
import { ANGLE_STEPS } from '../types.ts'
import { edgeEnergy, energyOfPiece, obstacleMiss, pairMiss, setBody, turnOf, type Bed } from './bed.ts'
import { regionBox } from './regionBox.ts'

/** What moves need besides the variables. */
export type Mover = { readonly bed: Bed; readonly rng: Rng; readonly scratch: Float64Array }

/** A piece that misses its gap to another piece, or to obstacle `other` less the number of pieces. */
export type Miss = { readonly piece: number; readonly other: number; readonly missMm: number }

/** Spots tried when a piece is set elsewhere. */
const SPOTS_TRIED = 40

/** All misses with the pieces standing as `x` says, and the sum of their squares and of those at the edge, unweighted. */
export function missesAt(
  { bed, scratch }: Mover,
  x: Float64Array,
): { readonly misses: Miss[]; readonly energy: number } {
  const { bodies, columns } = bed
  const misses: Miss[] = []
  let energy = 0
  bodies.forEach((_, i) => setBody(bed, i, x))
  for (let i = 0; i < bodies.length; i++) {
    energy += edgeEnergy(bed, i, scratch)
    for (let other = 0; other < columns; other++) {
      if (other >= i && other < bodies.length) continue
      const square =
        other < i ? pairMiss(bed, i, other, 0, scratch) : obstacleMiss(bed, i, other - bodies.length, 0, scratch)
      energy += square
      if (square > 0) misses.push({ piece: i, other, missMm: Math.sqrt(square) })
    }
  }
  return { misses, energy }
}

/** Pairs that miss weigh more from now on, the worst nearly twice as much; the others slowly forget. */
export function raiseWeights({ weights, columns }: Bed, misses: readonly Miss[]): void {
  for (let k = 0; k < weights.length; k++) weights[k] = Math.max(1, weights[k]! * 0.95)
  const worst = misses.reduce((most, { missMm }) => Math.max(most, missMm), 0)
  for (const { piece, other, missMm } of misses) {
    const at = piece * columns + other
    weights[at] = weights[at]! * (1.2 + (0.8 * missMm) / worst)
  }
}

/** A piece that overlaps is set elsewhere, or two change places, or the new weights are left to do it. */
export function moveSome(mover: Mover, x: Float64Array, misses: readonly Miss[]): void {
  const { bed, rng } = mover
  const count = bed.bodies.length
  const kind = rng.next()
  if (kind < 0.5 && misses.length > 0) {
    const { piece, other } = misses[rng.int(misses.length)]!
    relocate(mover, x, other < count && rng.next() < 0.5 ? other : piece)
  } else if (kind < 0.85 && count > 1) {
    const first = rng.int(count)
    swap(mover, x, first, (first + 1 + rng.int(count - 1)) % count)
  }
}

/** Sets a piece where, of some spots tried, it overlaps least. */
export function relocate({ bed, rng, scratch }: Mover, x: Float64Array, i: number): void {
  const { minX, minY, maxX, maxY } = regionBox(bed.bodies[i]!.region)
  bed.bodies.forEach((_, j) => setBody(bed, j, x))
  let least = Infinity
  const best = [x[3 * i]!, x[3 * i + 1]!, x[3 * i + 2]!]
  for (let k = 0; k < SPOTS_TRIED; k++) {
    x[3 * i] = minX + rng.next() * (maxX - minX)
    x[3 * i + 1] = minY + rng.next() * (maxY - minY)
    x[3 * i + 2] = someTurn(bed, i, rng)
    setBody(bed, i, x)
    const energy = energyOfPiece(bed, i, bed.bodies.length, scratch)
    if (energy >= least) continue
    least = energy
    best.splice(0, 3, x[3 * i]!, x[3 * i + 1]!, x[3 * i + 2]!)
  }
  x.set(best, 3 * i)
}

function swap({ bed, rng }: Mover, x: Float64Array, first: number, second: number): void {
  for (const axis of [0, 1]) {
    const kept = x[3 * first + axis]!
    x[3 * first + axis] = x[3 * second + axis]!
    x[3 * second + axis] = kept
  }
  for (const i of [first, second]) x[3 * i + 2] = someTurn(bed, i, rng)
}

/** Any angle that the piece allows. */
function someTurn(bed: Bed, i: number, rng: Rng): number {
  const { outline, rotation } = bed.task.pieces[i]!
  if (outline.symmetry === 'every') return 0
  if (rotation === 'any') return turnOf(outline, rng.next())
  const choices = angleChoices(outline, rotation, 4)
  return turnOf(outline, choices[rng.int(choices.length)]! / ANGLE_STEPS)
}
