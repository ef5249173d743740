import type { Indexed, Link } from './indexed.ts'

/** No path. */
export const NO_PATH = -0x3fffffff

/** Whether a link always holds: no choice, no optional task, no assumption. */
export function isFirm({ groupOf }: Indexed, { from, to, conditions, assumption }: Link): boolean {
  return conditions.length === 0 && assumption < 0 && (groupOf[from] ?? -1) < 0 && (groupOf[to] ?? -1) < 0
}

/**
 * The links of a cycle that asks a start to be later than itself, or undefined.
 * @see Bellman (1958), Ford (1956): longest paths; a start that still rises in the n-th round lies behind such a cycle
 */
export function impossibleCycle(nodeCount: number, links: readonly Link[]): Link[] | undefined {
  const distance = new Float64Array(nodeCount)
  const by: (Link | undefined)[] = Array.from({ length: nodeCount })
  let risen: Link | undefined
  for (let round = 0; round <= nodeCount; round++) {
    risen = undefined
    for (const link of links) {
      if (distance[link.from]! + link.weight <= distance[link.to]!) continue
      distance[link.to] = distance[link.from]! + link.weight
      by[link.to] = link
      risen = link
    }
    if (!risen) return undefined
  }
  let node = risen!.to
  for (let step = 0; step < nodeCount; step++) node = by[node]!.from
  const cycle: Link[] = []
  for (let at = node; cycle.length === 0 || at !== node; at = by[at]!.from) cycle.unshift(by[at]!)
  return cycle
}

/** Longest paths between all pairs, row-major, which `order` keeps up to date when a link is added. */
export type Distances = {
  readonly nodeCount: number
  readonly of: Int32Array
}

/** @see Floyd (1962), Warshall (1962) */
export function longestPaths(nodeCount: number, links: readonly Link[]): Distances {
  const of = new Int32Array(nodeCount * nodeCount).fill(NO_PATH)
  for (let i = 0; i < nodeCount; i++) of[i * nodeCount + i] = 0
  for (const { from, weight, to } of links) {
    if (weight > of[from * nodeCount + to]!) of[from * nodeCount + to] = weight
  }
  for (let k = 0; k < nodeCount; k++) {
    for (let i = 0; i < nodeCount; i++) {
      const toK = of[i * nodeCount + k]!
      if (toK !== NO_PATH) relaxRow(of, i * nodeCount, k * nodeCount, toK, nodeCount)
    }
  }
  return { nodeCount, of }
}

function relaxRow(of: Int32Array, row: number, through: number, toThrough: number, nodeCount: number): void {
  for (let j = 0; j < nodeCount; j++) {
    const onward = of[through + j]!
    if (onward !== NO_PATH && toThrough + onward > of[row + j]!) of[row + j] = toThrough + onward
  }
}

/** Adds start of `to` >= start of `from` + weight. @returns false if that closes an impossible cycle */
export function addLink({ nodeCount, of }: Distances, from: number, weight: number, to: number): boolean {
  if (of[from * nodeCount + to]! >= weight) return true
  const back = of[to * nodeCount + from]!
  if (back !== NO_PATH && back + weight > 0) return false
  for (let i = 0; i < nodeCount; i++) {
    const before = of[i * nodeCount + from]!
    if (before !== NO_PATH) relaxRow(of, i * nodeCount, to * nodeCount, before + weight, nodeCount)
  }
  return true
}
