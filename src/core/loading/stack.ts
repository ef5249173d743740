import type { Arrangement, Column, KilnPlan, PostPile } from './kilnPlan.ts'
import { axisDistance, type Region } from './region.ts'

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
  const stock = new Map(plan.kiln.furniture.posts.map((post) => [post.id, post.count]))
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
  stock: Map<string, number>,
): StackedLevel[] | undefined {
  const { clearances, chamber } = plan.kiln
  const { thicknessMm } = column.shelfKind
  const stack: StackedLevel[] = []
  let zMm = 0
  let needMm = 0
  for (const level of order) {
    const pile = shortestPile(plan, column, needMm, zMm, stock)
    if (pile === undefined) return undefined
    for (const post of pile.posts) stock.set(post.id, stock.get(post.id)! - column.postSpots.length)
    zMm += pile.lengthMm + thicknessMm
    if (zMm + needs[level]!.heightMm + clearances.lidMm > chamber.heightMm) return undefined
    needMm = needs[level]!.heightMm + clearances.headspaceMm
    stack.push({ level, pile, zMm })
  }
  return stack
}

function shortestPile(
  plan: KilnPlan,
  column: Column,
  needMm: number,
  fromZMm: number,
  stock: ReadonlyMap<string, number>,
): PostPile | undefined {
  return plan.piles.find(
    (pile) =>
      pile.lengthMm >= needMm &&
      isInStock(pile, column.postSpots.length, stock) &&
      isShelfClear(plan, column, fromZMm + pile.lengthMm),
  )
}

function isInStock(pile: PostPile, spots: number, stock: ReadonlyMap<string, number>): boolean {
  const { posts } = pile
  for (let i = 0; i < posts.length; i++) {
    let wanted = 0
    for (const post of posts) if (post === posts[i]) wanted += spots
    if ((stock.get(posts[i]!.id) ?? 0) < wanted) return false
  }
  return true
}

/** False when the shelf with its underside at this height would run into a thermocouple or the like. */
function isShelfClear(plan: KilnPlan, column: Column, undersideMm: number): boolean {
  const { keepOutMm } = plan.kiln.clearances
  const upperMm = undersideMm + column.shelfKind.thicknessMm
  return plan.kiln.chamber.keepOuts.every((k) => {
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
