import { seededRng } from '#core/rng.ts'
import { constructed } from './construct.ts'
import { leastPlates } from './lowerBound.ts'
import { onePlateFewer } from './onePlateFewer.ts'
import type { Plate } from './plate.ts'
import { sizesOf, type RectanglePlace, type RectangleProblem, type Sizes } from './problem.ts'

export type RectanglePacking = {
  /** Each plate in use, in the order in which its rectangles can be laid down. */
  readonly plates: readonly (readonly RectanglePlace[])[]
  /** Indices of rectangles larger than a plate; all others are on one. */
  readonly tooLarge: readonly number[]
  /** Proved: no packing of what fits does with fewer plates. */
  readonly lowerBound: number
}

export type RectangleSearch = {
  readonly seed: number
  /** Steps of the search in all. */
  readonly steps: number
  /** Asked now and then; true ends the search with the best so far. */
  readonly cancelled?: () => boolean
}

/** Steps between two questions whether the search is cancelled. */
const STEPS_A_QUESTION = 16

/**
 * Lays rectangles on as few plates as the search can, without overlap, edges along the plate's. The same problem, seed
 * and steps give the same packing. Stops early once the lower bound is met.
 * @throws RangeError when a side is not a positive number
 */
export function packRectangles(problem: RectangleProblem, search: RectangleSearch): RectanglePacking {
  const sides = problem.rectangles.flatMap(({ lengthMm, widthMm }) => [lengthMm, widthMm])
  const isSound = [problem.plateLengthMm, problem.plateWidthMm, ...sides].every((side) => side > 0 && side < Infinity)
  if (!isSound) throw new RangeError('sides must be positive lengths')
  const sizes = sizesOf(problem)
  const all = problem.rectangles.map((_, i) => i)
  const fitting = all.filter((i) => fitsAPlate(sizes, i))
  const tooLarge = all.filter((i) => !fitsAPlate(sizes, i))
  const lowerBound = leastPlates(sizesOf({ ...problem, rectangles: fitting.map((i) => problem.rectangles[i]!) }))
  const rng = seededRng(search.seed)
  let plates = constructed(sizes, fitting, lowerBound)
  let step = 0
  const isOver = () =>
    step++ >= search.steps || (step % STEPS_A_QUESTION === 0 && search.cancelled !== undefined && search.cancelled())
  while (plates.length > lowerBound) {
    const fewer = onePlateFewer(sizes, plates, rng, isOver)
    if (fewer === undefined) break
    plates = fewer
  }
  return { plates: plates.map((plate) => placesOn(sizes, plate)), tooLarge, lowerBound }
}

function fitsAPlate({ lengths, widths, plateLength, plateWidth, mayTurn }: Sizes, i: number): boolean {
  const fits = (length: number, width: number) => length <= plateLength && width <= plateWidth
  return fits(lengths[i]!, widths[i]!) || (mayTurn && fits(widths[i]!, lengths[i]!))
}

function placesOn({ lengths }: Sizes, { ids, laid, count }: Plate): RectanglePlace[] {
  return [...ids.subarray(0, count)].map((rectangle, k) => ({
    rectangle,
    xMm: laid[4 * k]!,
    yMm: laid[4 * k + 1]!,
    isTurned: laid[4 * k + 2] !== lengths[rectangle],
  }))
}
