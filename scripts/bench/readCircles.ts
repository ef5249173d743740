import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { CircleLayout } from './circleLoad.ts'

/** Best known radius of the container by number of circles: of radius 1 each, and of radii 1, 2 ... n. */
export type BestContainers = {
  readonly equal: ReadonlyMap<number, number>
  readonly rising: ReadonlyMap<number, number>
}

/** The `best_known.csv` of `circles-in-circle` and `unequal-circles-in-circle` in a folder. */
export function readBestContainers(folder: string): BestContainers {
  const read = (set: string, column: RegExp) => {
    const [head, ...lines] = readFileSync(join(folder, set, 'best_known.csv'), 'utf8')
      .trim()
      .split('\n')
    const at = head!.split(',').findIndex((name) => column.test(name))
    // A comma inside brackets, as in (i=1..n, ...), parts no columns.
    return new Map(lines.map((line) => cellsOf(line)).map((cells) => [Number(cells[0]), Number(cells[at])]))
  }
  return {
    equal: read('circles-in-circle', /ratio/),
    rising: read('unequal-circles-in-circle', /container_radius/),
  }
}

/** The reference layouts of equal circles, with the container's radius made 1. */
export function readReferenceLayouts(folder: string): CircleLayout[] {
  const set = join(folder, 'circles-in-circle')
  const layouts = JSON.parse(readFileSync(join(set, 'reference_positions_n1-100.json'), 'utf8')) as Record<
    string,
    [number, number][]
  >
  const [head, ...lines] = readFileSync(join(set, 'best_known.csv'), 'utf8').trim().split('\n')
  const at = head!.split(',').indexOf('best_known_radius_container1')
  const radii = new Map(lines.map((line) => [line.split(',')[0]!, Number(line.split(',')[at])]))
  return Object.entries(layouts).map(([count, centres]) => ({ radii: centres.map(() => radii.get(count)!), centres }))
}

const cellsOf = (line: string): string[] => line.split(/,(?![^()]*\))/)
