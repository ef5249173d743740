/** Which ways of filling a kiln are worth trying, judged by areas and heights alone: some hundred times quicker. */
import { lossOf, type Bundle } from './bundle.ts'
import type { Arrangement } from './arrangements.ts'
import type { KilnPlan } from './kilnPlan.ts'
import { ordersFor, type Order } from './orders.ts'
import { firstOfLength } from './stack.ts'

/** A way of filling a kiln: how it is furnished, and what is set down in which order. */
export type Way = { readonly arrangement: Arrangement; readonly queue: readonly Bundle[] }

/** More than any height to spare: levels that would have to be raised come after all others. */
const RAISED_MM = 1e6
/** Share of a shelf, gaps counted, that mixed ware takes before it is full. By trial. */
const SHELF_TAKEN = 0.7

/**
 * The ways of filling the kiln that leave out least ware if a level takes what its area says, the best first; of equals
 * the earlier order and arrangement.
 * @param piledWays the same pieces in bundles piled one way or another
 * @param most ways wanted, at least 1
 */
export function promisingWays(
  plan: KilnPlan,
  arrangements: readonly Arrangement[],
  piledWays: readonly (readonly Bundle[])[],
  most: number,
): Way[] {
  const orders = ordersFor(levelHeights(plan))
  const best: (Way & { readonly leftOutMm3: number })[] = []
  for (const bundles of piledWays) {
    const postsMm = new Map(bundles.map((bundle) => [bundle, postLengthOver(plan, bundle.heightMm)]))
    const areEqual = bundles.every((b) => b.mustGo === bundles[0]!.mustGo && b.urgency === bundles[0]!.urgency)
    for (const order of orders) {
      const queue = [...bundles].sort(areEqual ? order : byRank(order))
      for (const arrangement of arrangements) {
        const enough = best.length < most ? Infinity : best[most - 1]!.leftOutMm3
        const leftOutMm3 = leftOutByArea(plan, arrangement, queue, postsMm, enough)
        if (leftOutMm3 >= enough) continue
        if (best.length === most) best.pop()
        const at = best.findIndex((way) => way.leftOutMm3 > leftOutMm3)
        best.splice(at < 0 ? best.length : at, 0, { arrangement, queue, leftOutMm3 })
      }
    }
  }
  return best
}

/** What must go first, then the more urgent. */
const byRank =
  (order: Order): Order =>
  (a, b) =>
    Number(b.mustGo) - Number(a.mustGo) || (a.mustGo ? 0 : b.urgency - a.urgency) || order(a, b)

/** Ware heights under each single post from 4 to 8 inches, between which mixed ware lies. */
function levelHeights({ piles, kiln }: KilnPlan): number[] {
  const lengthsMm = piles.filter(({ posts }) => posts.length === 1).map(({ lengthMm }) => lengthMm)
  return lengthsMm.map((mm) => mm - kiln.clearances.headspaceMm).filter((mm) => mm >= 80 && mm <= 200)
}

/** Length of the shortest posts that clear ware of this height; infinite when none do. */
const postLengthOver = ({ piles, kiln }: KilnPlan, heightMm: number): number =>
  piles[firstOfLength(piles, heightMm + kiln.clearances.headspaceMm)]?.lengthMm ?? Infinity

type AreaLevel = { readonly column: number; readonly isTop: boolean; heightMm: number; postMm: number; freeMm2: number }

/** What areas alone leave of one column. */
type AreaColumn = {
  readonly shelfMm2: number
  readonly shelfMm: number
  leftMm: number
  shelves: number
  hasTop: boolean
}

/**
 * What `constructed` would leave out if areas alone decided; posts in stock and masses are not counted.
 * @param enough loss at which the rest does not matter
 */
function leftOutByArea(
  plan: KilnPlan,
  arrangement: Arrangement,
  queue: readonly Bundle[],
  postsMm: ReadonlyMap<Bundle, number>,
  enough: number,
): number {
  const columns = emptyColumns(plan, arrangement)
  const levels: AreaLevel[] = []
  let leftOut = 0
  for (const bundle of queue) {
    const postMm = postsMm.get(bundle)!
    const level = levelOfLeastWaste(columns, levels, bundle, postMm) ?? newLevel(columns, levels, bundle, postMm)
    if (level === undefined) {
      leftOut += lossOf(bundle)
      if (leftOut >= enough) return leftOut
      continue
    }
    columns[level.column]!.leftMm -= growthMm(level, bundle.heightMm, postMm)
    level.heightMm = Math.max(level.heightMm, bundle.heightMm)
    level.postMm = Math.max(level.postMm, postMm)
    level.freeMm2 -= bundle.areaMm2
  }
  return leftOut
}

function emptyColumns({ piles, kiln }: KilnPlan, { columns }: Arrangement): AreaColumn[] {
  const lowestMm = piles[0]?.lengthMm ?? Infinity
  return columns.map(({ shelfKind, shelves, areaMm2 }) => {
    const beside = columns.filter((other) => other.shelfKind === shelfKind).length
    return {
      shelfMm2: SHELF_TAKEN * areaMm2,
      shelfMm: shelfKind.thicknessMm,
      leftMm: kiln.chamber.heightMm - kiln.clearances.lidMm - lowestMm - shelfKind.thicknessMm,
      shelves: Math.floor(shelfKind.count / (shelves.length * beside)),
      hasTop: false,
    }
  })
}

/** The level that takes the bundle with least height to spare, else the one that must be raised least. */
function levelOfLeastWaste(
  columns: readonly AreaColumn[],
  levels: readonly AreaLevel[],
  { areaMm2, heightMm }: Bundle,
  postMm: number,
): AreaLevel | undefined {
  let best: AreaLevel | undefined
  let leastMm = Infinity
  for (const level of levels) {
    if (level.freeMm2 < areaMm2) continue
    const spareMm = level.heightMm - heightMm
    const wasteMm = spareMm >= 0 ? spareMm : RAISED_MM - spareMm
    if (wasteMm >= leastMm || growthMm(level, heightMm, postMm) > columns[level.column]!.leftMm) continue
    best = level
    leastMm = wasteMm
  }
  return best
}

/** An empty level in the first column with a shelf and its height left; the first of a column has nothing above it. */
function newLevel(
  columns: readonly AreaColumn[],
  levels: AreaLevel[],
  { areaMm2, heightMm }: Bundle,
  postMm: number,
): AreaLevel | undefined {
  for (let at = 0; at < columns.length; at++) {
    const column = columns[at]!
    const isTop = !column.hasTop
    const needMm = isTop ? heightMm : postMm + column.shelfMm
    if (column.shelves === 0 || needMm > column.leftMm || areaMm2 > column.shelfMm2) continue
    column.shelves--
    column.hasTop = true
    if (!isTop) column.leftMm -= column.shelfMm
    const level: AreaLevel = { column: at, isTop, heightMm: 0, postMm: 0, freeMm2: column.shelfMm2 }
    levels.push(level)
    return level
  }
  return undefined
}

/** Height that a level takes more of its column when it is to clear ware of this height. */
const growthMm = (level: AreaLevel, heightMm: number, postMm: number): number =>
  Math.max(0, level.isTop ? heightMm - level.heightMm : postMm - level.postMm)
