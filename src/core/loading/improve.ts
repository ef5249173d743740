import type { Rng } from '#core/rng.ts'
import type { Bundle } from './bundle.ts'
import { costOf } from './construct.ts'
import {
  anyDirection,
  closes,
  copyOf,
  emptyLevel,
  place,
  withStands,
  type Layout,
  type Level,
  type Packing,
} from './layout.ts'
import { orders } from './orders.ts'

const MEMORY = 60

/**
 * Ruin and recreate: takes ware off one to three levels, sets it down again with what was left out in another order,
 * and keeps the result when it leaves out less than now or than `MEMORY` rounds ago.
 * @param rounds whole number of rounds; ends early when nothing is left out
 * @see Burke & Bykov (2017), late acceptance hill climbing; Schrimpf et al. (2000), ruin and recreate
 */
export function improved(packing: Packing, start: Layout, rounds: number, rng: Rng): Layout {
  let current = start
  let best = start
  let currentCost = costOf(start)
  let bestCost = currentCost
  const past = new Float64Array(MEMORY).fill(currentCost)
  for (let round = 0; round < rounds && bestCost > 0; round++) {
    const candidate = recreated(packing, current, rng)
    const cost = closes(packing, candidate) ? costOf(candidate) : Infinity
    const slot = round % MEMORY
    if (cost <= currentCost || cost <= past[slot]!) {
      current = candidate
      currentCost = cost
    }
    past[slot] = currentCost
    if (cost < bestCost) {
      best = candidate
      bestCost = cost
    }
  }
  return best
}

function recreated(packing: Packing, layout: Layout, rng: Rng): Layout {
  const pool: Bundle[] = [...layout.out]
  const levels = layout.levels.map(copyOf)
  const count = Math.min(levels.length, 1 + rng.int(2))
  const share = 0.25 + 0.75 * rng.next()
  for (let k = 0; k < count; k++) {
    const at = rng.int(levels.length)
    levels[at] = ruined(levels[at]!, share, pool, rng)
  }
  const next: Layout = { arrangement: layout.arrangement, levels: levels.filter((l) => l.stands.length > 0), out: [] }
  for (const bundle of shuffledOrder(pool, rng)) if (!place(packing, next, bundle, rng)) next.out.push(bundle)
  return next
}

/** The level less a share of its ware, which joins the pool; taken wholly, it may come back low towards another side. */
function ruined(level: Level, share: number, pool: Bundle[], rng: Rng): Level {
  if (share > 0.8) {
    for (const stand of level.stands) pool.push(stand.bundle)
    return emptyLevel(level.column, level.isTop, anyDirection(rng))
  }
  const kept = level.stands.filter((stand) => {
    const isTaken = rng.next() < share
    if (isTaken) pool.push(stand.bundle)
    return !isTaken
  })
  return withStands(level, kept)
}

/** One of the orders with a little noise, must-go pieces first. */
function shuffledOrder(pool: readonly Bundle[], rng: Rng): Bundle[] {
  const order = orders[rng.int(orders.length)]!
  const sorted = [...pool].sort((a, b) => Number(b.mustGo) - Number(a.mustGo) || order(a, b))
  for (let i = 0; i + 1 < sorted.length; i++) {
    if (rng.next() > 0.2) continue
    const swapped = sorted[i]!
    sorted[i] = sorted[i + 1]!
    sorted[i + 1] = swapped
  }
  return sorted
}
