import { findSpot, lay, newPlate, rules, type Plate, type Rule, type Spot } from './plate.ts'
import type { Sizes } from './problem.ts'

/** Orders in which rectangles are laid: largest first, by one measure or another. */
type Measure = (sizes: Sizes, i: number) => readonly [number, number]
const measures: readonly Measure[] = [
  ({ areas }, i) => [areas[i]!, 0],
  ({ lengths, widths }, i) => [Math.max(lengths[i]!, widths[i]!), Math.min(lengths[i]!, widths[i]!)],
  ({ lengths, widths }, i) => [widths[i]!, lengths[i]!],
  ({ lengths, widths }, i) => [lengths[i]!, widths[i]!],
  ({ lengths, widths }, i) => [lengths[i]! + widths[i]!, 0],
  ({ lengths, widths }, i) => [Math.min(lengths[i]!, widths[i]!), Math.max(lengths[i]!, widths[i]!)],
]

/** The best of all orders and rules, on the first plate with room or on the plate with the best spot. */
export function constructed(sizes: Sizes, ids: readonly number[], enough: number): Plate[] {
  let best: Plate[] | undefined
  for (const measure of measures) {
    const ranked = ids.map((id) => ({ id, rank: measure(sizes, id) }))
    ranked.sort((a, b) => b.rank[0] - a.rank[0] || b.rank[1] - a.rank[1] || a.id - b.id)
    const order = ranked.map(({ id }) => id)
    for (const rule of rules) {
      for (const isFirst of [true, false]) {
        const plates = laidInOrder(sizes, order, rule, isFirst)
        if (best === undefined || plates.length < best.length) best = plates
        if (best.length <= enough) return best
      }
    }
  }
  return best ?? []
}

function laidInOrder(sizes: Sizes, order: readonly number[], rule: Rule, isFirst: boolean): Plate[] {
  const { lengths, widths, areas, mayTurn, plateLength, plateWidth } = sizes
  const plates: Plate[] = []
  const spot: Spot = { score: Infinity, tie: Infinity, x: 0, y: 0, length: 0, width: 0 }
  for (const id of order) {
    spot.score = Infinity
    let chosen: Plate | undefined
    for (const plate of plates) {
      if (plate.area + areas[id]! > plateLength * plateWidth) continue
      if (findSpot(plate, lengths[id]!, widths[id]!, mayTurn, rule, spot)) chosen = plate
      if (isFirst && chosen !== undefined) break
    }
    if (chosen === undefined) {
      chosen = newPlate(sizes)
      plates.push(chosen)
      findSpot(chosen, lengths[id]!, widths[id]!, mayTurn, rule, spot)
    }
    lay(chosen, id, spot.x, spot.y, spot.length, spot.width)
  }
  return plates
}
