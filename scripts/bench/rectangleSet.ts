import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { RectanglePacking } from '../../src/core/loading/rectangles/packRectangles.ts'
import type { RectangleProblem } from '../../src/core/loading/rectangles/problem.ts'

export type RectangleInstance = {
  readonly name: string
  readonly W: number
  readonly H: number
  readonly items: readonly (readonly [number, number])[]
}

/** Published bests by instance. */
type Best = { readonly oriented: number; readonly turned: number }

/** `instances.json` and `best_known.csv` of a folder. */
export function readRectangles(folder: string): {
  readonly instances: readonly RectangleInstance[]
  readonly best: ReadonlyMap<string, Best>
} {
  const instances = JSON.parse(readFileSync(join(folder, 'instances.json'), 'utf8')) as RectangleInstance[]
  const [head, ...lines] = readFileSync(join(folder, 'best_known.csv'), 'utf8').trim().split('\n')
  const columns = head!.split(',')
  const [oriented, turned] = ['best_known_oriented', 'best_known_rotation'].map((name) => columns.indexOf(name))
  const best = new Map(
    lines.map((line) => {
      const cells = line.split(',')
      return [cells[0]!, { oriented: Number(cells[oriented!]), turned: Number(cells[turned!]) }]
    }),
  )
  return { instances, best }
}

export function problemOf({ W, H, items }: RectangleInstance, mayTurn: boolean): RectangleProblem {
  const rectangles = items.map(([lengthMm, widthMm]) => ({ lengthMm, widthMm }))
  return { plateLengthMm: W, plateWidthMm: H, rectangles, mayTurn }
}

/** What is wrong with a packing, by comparing every pair anew; undefined when it is sound. */
export function faultOf(
  { W, H, items }: RectangleInstance,
  mayTurn: boolean,
  packing: RectanglePacking,
): string | undefined {
  const seen = new Set<number>()
  for (const plate of packing.plates) {
    const boxes = plate.map(({ rectangle, xMm, yMm, isTurned }) => {
      const [length, width] = items[rectangle]!
      seen.add(rectangle)
      return isTurned ? [xMm, yMm, xMm + width, yMm + length] : [xMm, yMm, xMm + length, yMm + width]
    })
    if (!mayTurn && plate.some(({ isTurned }) => isTurned)) return 'turned'
    for (const [i, [x, y, right, top]] of boxes.entries()) {
      if (x! < 0 || y! < 0 || right! > W || top! > H) return `rectangle ${plate[i]!.rectangle} over the edge`
      for (const other of boxes.slice(0, i)) {
        if (x! < other[2]! && other[0]! < right! && y! < other[3]! && other[1]! < top!) return 'overlap'
      }
    }
  }
  const count = packing.plates.reduce((sum, plate) => sum + plate.length, 0)
  return count === items.length && seen.size === count ? undefined : 'a rectangle missing or laid twice'
}
