import type { Rng } from '#core/rng.ts'
import { costOf, setDown } from './construct.ts'
import { anyDirection, copyOf, emptyLevel, type Layout, type Level, type Packing } from './layout.ts'
import { bulkyFirst, type Order } from './orders.ts'

/** Height that a level takes besides its ware, roughly, mm: headspace and shelf. */
const LEVEL_LOSS_MM = 31

/**
 * The layout with the level that wastes most emptied and filled anew, bulkiest ware first (by trial over 160 loads, half a hundredth more than the widest first) and low towards another side,
 * again and again while that leaves out less; a level that gained nothing is passed over from then on.
 * @param rounds at most
 */
export function refilled(packing: Packing, start: Layout, rounds: number, rng: Rng): Layout {
  let best = start
  let bestCost = costOf(start)
  let passedOver = new Set<Level>()
  for (let round = 0; round < rounds && bestCost > 0; round++) {
    const level = mostWasteful(packing, best, passedOver)
    if (level === undefined) break
    const next = withLevelRefilled(packing, best, level, bestCost, rng)
    if (next !== undefined) {
      best = next
      bestCost = costOf(next)
      passedOver = new Set()
    } else passedOver.add(level)
  }
  return best
}

/** @param enough loss at which the level is given up, as less is known */
function withLevelRefilled(
  packing: Packing,
  layout: Layout,
  emptied: Level,
  enough: number,
  rng: Rng,
): Layout | undefined {
  const { arrangement } = layout
  const levels = layout.levels.filter((level) => level !== emptied).map(copyOf)
  if (emptied.isTop) levels.push(emptyLevel(emptied.column, true, anyDirection(rng)))
  const next: Layout = { arrangement, levels, out: [] }
  const queue = [...layout.out, ...emptied.stands.map((stand) => stand.bundle)].sort(mustGoFirst)
  if (!setDown(packing, next, queue, enough, rng)) return undefined
  next.levels = next.levels.filter((level) => level.stands.length > 0)
  return next
}

const mustGoFirst: Order = (a, b) => Number(b.mustGo) - Number(a.mustGo) || bulkyFirst(a, b)

/** The level whose space is least of all ware. */
function mostWasteful(packing: Packing, layout: Layout, passedOver: ReadonlySet<Level>): Level | undefined {
  let most: Level | undefined
  let mostMm3 = -Infinity
  for (const level of layout.levels) {
    if (passedOver.has(level)) continue
    const spaceMm3 = layout.arrangement.columns[level.column]!.areaMm2 * (level.heightMm + LEVEL_LOSS_MM)
    const wasteMm3 = level.stands.reduce((mm3, { bundle }) => mm3 - bundle.areaMm2 * bundle.heightMm, spaceMm3)
    if (wasteMm3 <= mostMm3) continue
    most = level
    mostMm3 = wasteMm3
  }
  return most
}
