import { refutationOfOne } from './onePiece.ts'
import type { KilnSpace, LeftOut, LoadItem, LoadKind, Reason } from './types.ts'

/** Pieces tried in one load at most; a kiln holds a few hundred. */
export const MOST_PIECES = 1_500

export const leftOutFor = (key: string, code: string): LeftOut => ({ key, reason: { code, params: {} } })

/** Must-go pieces, and those that must go because a member of their group or their pot or lid must. */
export function mustGoItems(items: readonly LoadItem[]): LoadItem[] {
  const must = new Set(items.filter((item) => item.mustGo))
  if (must.size === 0 || must.size === items.length) return [...must]
  const pots = new Map(items.map((item) => [item.key, item]))
  for (let before = -1; before !== must.size;) {
    before = must.size
    const groups = new Set([...must].map((item) => item.group))
    for (const item of items) {
      if (item.group !== undefined && groups.has(item.group)) must.add(item)
      const pot = item.lidOf === undefined ? undefined : pots.get(item.lidOf)
      if (pot !== undefined && must.has(pot)) must.add(item)
      if (pot !== undefined && must.has(item)) must.add(pot)
    }
  }
  return items.filter((item) => must.has(item))
}

/** Pieces worth trying beside the must-go ones: those that fit by themselves and can share their firing. */
export function candidates(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  must: ReadonlySet<LoadItem>,
  kind: LoadKind,
): { going: LoadItem[]; leftOut: LeftOut[] } {
  const peakC = commonPeakC(items, must)
  const leftOut: LeftOut[] = []
  const lostGroups = new Set<string>()
  const fillers = items.filter((item) => !must.has(item))
  const kept = fillers.filter((item, i) => {
    const reason = i + must.size >= MOST_PIECES ? { code: 'not-tried', params: {} } : whyNot(kiln, item, kind, peakC)
    if (reason === undefined) return true
    leftOut.push({ key: item.key, reason })
    if (item.group !== undefined) lostGroups.add(item.group)
    return false
  })
  const going = kept.filter((item) => {
    const isLost = item.group !== undefined && lostGroups.has(item.group)
    if (isLost) leftOut.push(leftOutFor(item.key, 'group-left-out'))
    return !isLost
  })
  const goingKeys = new Set([...must, ...going].map((item) => item.key))
  const withPots = going.filter((item) => {
    const isLost = item.lidOf !== undefined && !goingKeys.has(item.lidOf)
    if (isLost) leftOut.push(leftOutFor(item.key, 'pot-left-out'))
    return !isLost
  })
  return { going: [...[...must].map((item) => ({ ...item, mustGo: true })), ...withPots], leftOut }
}

function whyNot(kiln: KilnSpace, item: LoadItem, kind: LoadKind, peakC: number | undefined): Reason | undefined {
  const alone = refutationOfOne(kiln, item, kind)
  if (alone !== undefined || item.firing === undefined || peakC === undefined) return alone
  const { lowC, highC } = item.firing
  return lowC <= peakC && peakC <= highC ? undefined : { code: 'firing-range', params: { lowC, highC, peakC } }
}

/** The peak that suits all must-go pieces and the most volume of the rest; undefined when nobody minds. */
export function commonPeakC(items: readonly LoadItem[], must: ReadonlySet<LoadItem>): number | undefined {
  const ranged = items.filter((item) => item.firing !== undefined)
  let best: number | undefined
  let bestCount = -1
  for (const { firing } of ranged) {
    const peakC = firing!.lowC
    const suited = ranged.filter((item) => item.firing!.lowC <= peakC && peakC <= item.firing!.highC)
    const isForMust = ranged.every((item) => !must.has(item) || suited.includes(item))
    if (!isForMust || suited.length < bestCount || (suited.length === bestCount && peakC >= best!)) continue
    best = peakC
    bestCount = suited.length
  }
  return best
}
