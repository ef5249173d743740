import type { Indexed } from './indexed.ts'
import { addLink, NO_PATH, type Distances } from './longestPaths.ts'

/** Two tasks that cannot be under way together and whose order is open. */
export type OpenPair = { readonly a: number; readonly b: number }

/** The one ends before the other starts. */
export type Precedence = { readonly before: number; readonly after: number }

/** Precedences forced on pairs, and the pairs left open. */
export type Pairs = {
  readonly forced: readonly Precedence[]
  readonly open: readonly OpenPair[]
}

/** Whether the two, each in its only mode, need more of a resource than there is. */
export function cannotOverlap({ modes, resources }: Indexed, a: number, b: number): boolean {
  const first = modes[a]![0]!
  const second = modes[b]![0]!
  if (first.durationMin === 0 || second.durationMin === 0) return false
  return first.demands.some(({ resource, amount }) => {
    if (resources[resource]!.assumption >= 0) return false
    const other = second.demands.find((demand) => demand.resource === resource)
    return other !== undefined && amount + other.amount > resources[resource]!.capacity
  })
}

/** The pairs of tasks that are surely done, in their only mode, and cannot overlap. */
export function pairsApart(indexed: Indexed): OpenPair[] {
  const { groupOf, modes, taskCount } = indexed
  const ordinary = Array.from({ length: taskCount }, (_, task) => task).filter(
    (task) => groupOf[task]! < 0 && modes[task]!.length === 1,
  )
  return ordinary.flatMap((a, i) =>
    ordinary.slice(i + 1).flatMap((b) => (cannotOverlap(indexed, a, b) ? [{ a, b }] : [])),
  )
}

/**
 * Orders pairs that cannot overlap where the lags leave only one order, until nothing changes (`distances` is brought
 * up to date). @returns undefined if some pair can be ordered neither way
 */
export function orderPairs(indexed: Indexed, apart: readonly OpenPair[], distances: Distances): Pairs | undefined {
  const { nodeCount, of } = distances
  const durationOf = (task: number) => indexed.modes[task]![0]!.durationMin
  const forced: Precedence[] = []
  let open = apart
  const cannotPrecede = (before: number, after: number): boolean => {
    const back = of[after * nodeCount + before]!
    return back !== NO_PATH && back + durationOf(before) > 0
  }
  for (let changed = true; changed;) {
    changed = false
    const still: OpenPair[] = []
    for (const pair of open) {
      const { a, b } = pair
      if (of[a * nodeCount + b]! >= durationOf(a) || of[b * nodeCount + a]! >= durationOf(b)) continue
      const notAB = cannotPrecede(a, b)
      const notBA = cannotPrecede(b, a)
      if (notAB && notBA) return undefined
      if (!notAB && !notBA) {
        still.push(pair)
        continue
      }
      const before = notAB ? b : a
      const after = notAB ? a : b
      if (!addLink(distances, before, durationOf(before), after)) return undefined
      forced.push({ before, after })
      changed = true
    }
    open = still
  }
  return { forced, open }
}
