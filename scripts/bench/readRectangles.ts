import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { RectanglePacking } from '../../src/core/loading/rectangles/packRectangles.ts'
import type { RectangleProblem } from '../../src/core/loading/rectangles/problem.ts'

export type RectangleInstance = {
  readonly name: string
  readonly W: number
  readonly H: number
  readonly items: readonly (readonly [number, number])[]
  readonly bestOriented: number
  readonly bestTurned: number
}

/** `instances.json` of a folder, with the published bests of its `best_known.csv`. */
export function readRectangles(folder: string): RectangleInstance[] {
  type Plain = Omit<RectangleInstance, 'bestOriented' | 'bestTurned'>
  const instances = JSON.parse(readFileSync(join(folder, 'instances.json'), 'utf8')) as Plain[]
  const [head, ...lines] = readFileSync(join(folder, 'best_known.csv'), 'utf8').trim().split('\n')
  const columns = head!.split(',')
  const rows = new Map(lines.map((line) => [line.split(',')[0]!, line.split(',')]))
  const best = (name: string, column: string) => Number(rows.get(name)?.[columns.indexOf(column)])
  return instances.map((instance) => ({
    ...instance,
    bestOriented: best(instance.name, 'best_known_oriented'),
    bestTurned: best(instance.name, 'best_known_rotation'),
  }))
}

export function problemOf({ W, H, items }: RectangleInstance, mayTurn: boolean): RectangleProblem {
  const rectangles = items.map(([lengthMm, widthMm]) => ({ lengthMm, widthMm }))
  return { plateLengthMm: W, plateWidthMm: H, rectangles, mayTurn }
}

/** What is wrong with a packing, every pair compared anew from the instance's own sizes; undefined when it is sound. */
export function faultOf(instance: RectangleInstance, mayTurn: boolean, packing: RectanglePacking): string | undefined {
  const { W, H, items } = instance
  const times = items.map(() => 0)
  for (const plate of packing.plates) {
    const boxes = plate.map(({ rectangle, xMm, yMm, isTurned }) => {
      const [length, width] = items[rectangle]!
      times[rectangle]!++
      const [alongX, alongY] = isTurned ? [width, length] : [length, width]
      return { left: xMm, bottom: yMm, right: xMm + alongX, top: yMm + alongY }
    })
    if (!mayTurn && plate.some(({ isTurned }) => isTurned)) return 'a rectangle is turned'
    for (const [i, a] of boxes.entries()) {
      if (a.left < 0 || a.bottom < 0 || a.right > W || a.top > H) return 'a rectangle lies over the edge'
      const meets = (b: typeof a) => a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top
      if (boxes.slice(0, i).some(meets)) return 'two rectangles overlap'
    }
  }
  return times.every((count) => count === 1) ? undefined : 'a rectangle is missing or laid twice'
}
