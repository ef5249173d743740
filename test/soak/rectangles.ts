import { packRectangles, type RectanglePacking } from '#core/loading/rectangles/packRectangles.ts'
import type { Rectangle, RectangleProblem } from '#core/loading/rectangles/problem.ts'
import { seededRng, type Rng } from '#core/rng.ts'

/**
 * Whole plates cut into rectangles at random, so that so many plates are known to do: what is packed is counted cell by
 * cell, and no bound proves more plates than were cut.
 */
export function run(cases: number, seed: number): { failures: number; report: string } {
  const rng = seededRng(seed)
  const faults: string[] = []
  let atBest = 0
  for (let k = 0; k < cases; k++) {
    const cut = 1 + rng.int(4)
    const problem = cutPlates(cut, rng)
    const packing = packRectangles(problem, { seed: k, steps: 100 })
    if (packing.plates.length === cut) atBest++
    const fault = faultOf(problem, packing, cut)
    if (fault !== undefined) faults.push(`case ${k}: ${fault}`)
  }
  return { failures: faults.length, report: [`${atBest} of ${cases} on as few plates as cut`, ...faults].join('\n') }
}

function cutPlates(count: number, rng: Rng): RectangleProblem {
  const [plateLengthMm, plateWidthMm] = [20 + rng.int(30), 20 + rng.int(30)]
  const pieces = Array.from({ length: count }, () => cutUp([plateLengthMm, plateWidthMm], 3, rng)).flat()
  const mayTurn = rng.int(2) === 0
  const rectangles = pieces.map(([lengthMm, widthMm]): Rectangle =>
    mayTurn && rng.int(2) === 0 && lengthMm <= plateWidthMm && widthMm <= plateLengthMm
      ? { lengthMm: widthMm, widthMm: lengthMm }
      : { lengthMm, widthMm },
  )
  return { plateLengthMm, plateWidthMm, rectangles, mayTurn }
}

function cutUp([length, width]: readonly [number, number], times: number, rng: Rng): (readonly [number, number])[] {
  const isAlong = rng.int(2) === 0
  const side = isAlong ? length : width
  if (times === 0 || side < 2) return [[length, width]]
  const at = 1 + rng.int(side - 1)
  const [first, second] = isAlong
    ? [[at, width] as const, [length - at, width] as const]
    : [[length, at] as const, [length, width - at] as const]
  return [...cutUp(first, times - 1, rng), ...cutUp(second, times - 1, rng)]
}

function faultOf(problem: RectangleProblem, packing: RectanglePacking, cut: number): string | undefined {
  const { plateLengthMm, plateWidthMm, rectangles, mayTurn } = problem
  if (packing.lowerBound > cut) return `a bound of ${packing.lowerBound} though ${cut} do`
  if (packing.plates.length < cut) return `on ${packing.plates.length} plates, whose area is too small`
  const times = rectangles.map(() => 0)
  for (const plate of packing.plates) {
    const cells = new Set<number>()
    let area = 0
    for (const { rectangle, xMm, yMm, isTurned } of plate) {
      const { lengthMm, widthMm } = rectangles[rectangle]!
      const [alongX, alongY] = isTurned ? [widthMm, lengthMm] : [lengthMm, widthMm]
      if (isTurned && !mayTurn) return 'turned'
      if (xMm < 0 || yMm < 0 || xMm + alongX > plateLengthMm || yMm + alongY > plateWidthMm) return 'over the edge'
      times[rectangle]!++
      area += alongX * alongY
      for (let x = xMm; x < xMm + alongX; x++) for (let y = yMm; y < yMm + alongY; y++) cells.add(x * plateWidthMm + y)
    }
    if (cells.size !== area) return 'overlap'
  }
  return times.every((count) => count === 1) && packing.tooLarge.length === 0 ? undefined : 'missing or laid twice'
}
