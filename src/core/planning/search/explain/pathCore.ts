import type { Indexed, Link } from '../indexed.ts'
import { addLink, impossibleCycle, isFirm, longestPaths, type Distances } from '../longestPaths.ts'
import { orderPairs, pairsApart } from '../pairs.ts'

/**
 * A conflict that needs no search to be proved: a cycle of lags, or tasks that can follow each other neither way. Each
 * member is needed for this proof, though another may do without it. One that stands alone is preferred.
 * @returns indices of assumptions; undefined if all together are not refuted so
 */
export function pathCore(indexed: Indexed): readonly number[] | undefined {
  const isRefuted = refuterOf(indexed)
  const all = (indexed.problem.assumptions ?? []).map((_, index) => index)
  if (!isRefuted(all)) return undefined
  if (isRefuted([])) return []
  const alone = all.find((assumption) => isRefuted([assumption]))
  if (alone !== undefined) return [alone]
  const [one, other] = [needed(isRefuted, all), needed(isRefuted, all.toReversed())]
  return other.length < one.length ? other : one
}

/**
 * Of assumptions that are refuted together, but not none of them, some that are so still, each being needed: halves are
 * taken apart only if something in them is needed beside the rest.
 * @see Junker (2004), QuickXplain: preferred explanations and relaxations for over-constrained problems
 */
function needed(isRefuted: (assumptions: readonly number[]) => boolean, all: readonly number[]): readonly number[] {
  /** Those of `open` needed beside `kept`; `hasGrown` if `kept` alone may be refuted now. */
  const neededOf = (kept: readonly number[], hasGrown: boolean, open: readonly number[]): readonly number[] => {
    if (hasGrown && isRefuted(kept)) return []
    if (open.length === 1) return open
    const first = open.slice(0, open.length >> 1)
    const second = open.slice(open.length >> 1)
    const ofSecond = neededOf([...kept, ...first], true, second)
    const ofFirst = neededOf([...kept, ...ofSecond], ofSecond.length > 0, first)
    return [...ofFirst, ...ofSecond]
  }
  return neededOf([], false, all)
}

/** Whether paths alone show that the assumptions, with all that is firm, cannot hold. */
function refuterOf(indexed: Indexed): (assumptions: readonly number[]) => boolean {
  const nodeCount = indexed.taskCount + 1
  const firm = indexed.links.filter((link) => isFirm(indexed, link))
  const linksOf: Link[][] = (indexed.problem.assumptions ?? []).map(() => [])
  for (const link of indexed.links) {
    if (link.assumption >= 0 && isFirm(indexed, { ...link, assumption: -1 })) linksOf[link.assumption]!.push(link)
  }
  if (impossibleCycle(nodeCount, firm)) return () => true
  const distances = longestPaths(nodeCount, firm)
  const pairs = orderPairs(indexed, pairsApart(indexed), distances)
  if (!pairs) return () => true
  return (assumptions) => {
    const own: Distances = { nodeCount, of: distances.of.slice() }
    const hold = assumptions.every((assumption) =>
      linksOf[assumption]!.every(({ from, weight, to }) => addLink(own, from, weight, to)),
    )
    return !hold || orderPairs(indexed, pairs.open, own) === undefined
  }
}
