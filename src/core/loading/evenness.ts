import type { Rng } from '#core/rng.ts'
import { closes, type Layout, type Packing } from './layout.ts'
import { bundlesIn, placeUnit, unitsOf, withoutBundles } from './units.ts'

/** Moves tried for each load. Our choice. */
const TRIES_PER_LOAD = 12

/** The loads with ware moved from the fullest to the emptiest, by mass and height of levels, while that evens them. */
export function evened(packing: Packing, layouts: readonly Layout[], rng: Rng): Layout[] {
  const even = [...layouts]
  for (let attempt = 0; attempt < TRIES_PER_LOAD * layouts.length && layouts.length > 1; attempt++) {
    const fullness = fullnessOf(even)
    const from = fullness.indexOf(Math.max(...fullness))
    const to = fullness.indexOf(Math.min(...fullness))
    const units = unitsOf(bundlesIn(even[from]!))
    const unit = units[rng.int(units.length)]!
    const filled = placeUnit(packing, even[to]!, unit, rng)
    if (filled === undefined) continue
    const moved = [...even]
    moved[to] = filled
    moved[from] = withoutBundles(even[from]!, new Set(unit.bundles))
    if (spreadOf(fullnessOf(moved)) >= spreadOf(fullness) || !closes(packing, moved[from])) continue
    even[to] = moved[to]!
    even[from] = moved[from]!
  }
  return even
}

/** Mass and height of levels of each load, as shares of all loads. */
function fullnessOf(layouts: readonly Layout[]): number[] {
  const masses = layouts.map(({ levels }) => levels.reduce((sum, { massKg }) => sum + massKg, 0))
  const heights = layouts.map(({ levels }) => levels.reduce((sum, { heightMm }) => sum + heightMm, 0))
  const [mass, height] = [masses, heights].map((values) => values.reduce((a, b) => a + b, 0)) as [number, number]
  return masses.map((own, i) => own / Math.max(mass, 1e-9) + heights[i]! / height)
}

const spreadOf = (fullness: readonly number[]): number => fullness.reduce((sum, own) => sum + own * own, 0)
