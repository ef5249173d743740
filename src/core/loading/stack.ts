import type { Arrangement, Column } from './arrangements.ts'
import type { KilnPlan, PostPile } from './kilnPlan.ts'
import { axisDistance, type Region } from './region.ts'
import type { KilnSpace } from './types.ts'

/** A level to be stacked: how tall its ware is, and whether nothing stands above it. */
export type LevelNeed = { readonly column: number; readonly heightMm: number; readonly isTop: boolean }

/** A level in its place in the stack. */
export type StackedLevel = {
  /** Index into the needs. */
  readonly level: number
  readonly pile: PostPile
  readonly zMm: number
}

/**
 * Posts for the levels of every column, tall levels lowest, each on the shortest pile that serves and is still in
 * stock; undefined when the stack would not close under the lid or the posts run out.
 * @returns [column][position from the bottom]
 */
export function stackOf(
  plan: KilnPlan,
  arrangement: Arrangement,
  needs: readonly LevelNeed[],
): readonly (readonly StackedLevel[])[] | undefined {
  const stock = plan.kiln.furniture.posts.map((post) => post.count)
  const stacks: StackedLevel[][] = []
  for (let column = 0; column < arrangement.columns.length; column++) {
    const stack = columnStack(plan, arrangement.columns[column]!, needs, bottomUp(needs, column), stock)
    if (stack === undefined) return undefined
    stacks.push(stack)
  }
  return stacks
}

/** Levels of a column from the bottom: by height, but the one packed without posts last. */
function bottomUp(needs: readonly LevelNeed[], column: number): number[] {
  const own: number[] = []
  for (let i = 0; i < needs.length; i++) if (needs[i]!.column === column) own.push(i)
  return own.sort((a, b) => {
    const [first, second] = [needs[a]!, needs[b]!]
    return Number(first.isTop) - Number(second.isTop) || second.heightMm - first.heightMm || a - b
  })
}

function columnStack(
  plan: KilnPlan,
  column: Column,
  needs: readonly LevelNeed[],
  order: readonly number[],
  stock: number[],
): StackedLevel[] | undefined {
  const { clearances, chamber } = plan.kiln
  const { thicknessMm } = column.shelfKind
  const stack: StackedLevel[] = []
  let zMm = 0
  let needMm = 0
  for (const level of order) {
    const pile = shortestPile(plan, column, needMm, zMm, stock)
    if (pile === undefined) return undefined
    for (const kind of pile.kinds) stock[kind] = stock[kind]! - column.postSpots.length
    zMm += pile.lengthMm + thicknessMm
    if (zMm + needs[level]!.heightMm + clearances.lidMm > chamber.heightMm) return undefined
    needMm = needs[level]!.heightMm + clearances.headspaceMm
    stack.push({ level, pile, zMm })
  }
  return stack
}

function shortestPile(
  { piles, kiln }: KilnPlan,
  column: Column,
  needMm: number,
  fromZMm: number,
  stock: readonly number[],
): PostPile | undefined {
  for (let i = firstOfLength(piles, needMm); i < piles.length; i++) {
    const pile = piles[i]!
    if (!isInStock(pile, column.postSpots.length, stock)) continue
    if (isShelfClear(kiln, column, fromZMm + pile.lengthMm)) return pile
  }
  return undefined
}

/** Index of the shortest pile of at least this length, or how many piles there are; piles are in order of length. */
export function firstOfLength(piles: readonly PostPile[], leastMm: number): number {
  let [low, high] = [0, piles.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (piles[middle]!.lengthMm < leastMm) low = middle + 1
    else high = middle
  }
  return low
}

function isInStock({ kinds }: PostPile, spots: number, stock: readonly number[]): boolean {
  for (let i = 0; i < kinds.length; i++) {
    let wanted = 0
    for (let j = 0; j < kinds.length; j++) if (kinds[j] === kinds[i]) wanted += spots
    if (stock[kinds[i]!]! < wanted) return false
  }
  return true
}

/** False when the shelf with its underside at this height would run into a thermocouple or the like. */
function isShelfClear({ clearances, chamber }: KilnSpace, column: Column, undersideMm: number): boolean {
  const { keepOutMm } = clearances
  const upperMm = undersideMm + column.shelfKind.thicknessMm
  return chamber.keepOuts.every((k) => {
    const isBeside = undersideMm < k.toZMm + keepOutMm && upperMm > k.fromZMm - keepOutMm
    return (
      !isBeside ||
      column.shelves.every((_, i) => pointDistance(column.shelfRegions[i]!, k.xMm, k.yMm) >= k.radiusMm + keepOutMm)
    )
  })
}

/** From below: how far a point lies outside a convex region. */
function pointDistance(region: Region, xMm: number, yMm: number): number {
  let distance = 0
  for (let i = 0; i < region.planes.length; i += 3) {
    distance = Math.max(distance, region.planes[i]! * xMm + region.planes[i + 1]! * yMm - region.planes[i + 2]!)
  }
  for (let i = 0; i < region.capsules.length; i += 5) {
    distance = Math.max(distance, axisDistance(region.capsules, i, xMm, yMm) - region.capsules[i + 4]!)
  }
  return distance
}
