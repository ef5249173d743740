import type { LoadItem } from './types.ts'

/** Ware that may share a load by its heat. */
type HeatClass = { readonly wanted: readonly LoadItem[]; readonly fillers: readonly LoadItem[] }

/** Classes, and what suits none: sets whose pieces want different heats, and fillers for whose heat no load is made. */
type HeatClasses = { readonly classes: readonly HeatClass[]; readonly unsuited: readonly LoadItem[] }

/**
 * Fewest classes of one peak each (greedy by the lowest upper end, which is the least for intervals); sets and lids
 * with their pots stay together, and what minds no heat joins the largest class.
 */
export function heatClasses(wanted: readonly LoadItem[], fillers: readonly LoadItem[]): HeatClasses {
  const bounds = boundTogether([...wanted, ...fillers])
  const ranged = bounds.filter(({ lowC, highC }) => lowC <= highC)
  const unsuited = bounds.filter(({ lowC, highC }) => lowC > highC).flatMap((bound) => bound.items)
  const isWanted = new Set(wanted)
  const peaks = peaksFor(
    ranged.filter(({ items, highC }) => highC < Infinity && items.some((item) => isWanted.has(item))),
  )
  const classes = (peaks.length === 0 ? [undefined] : peaks).map((peakC) => ({ peakC, items: [] as LoadItem[] }))
  const size = ({ items }: { items: readonly LoadItem[] }): number => items.length
  for (const { items, lowC, highC } of ranged.sort(
    (a, b) => Number(a.highC === Infinity) - Number(b.highC === Infinity),
  )) {
    const suited = classes.filter(({ peakC }) => peakC === undefined || (lowC <= peakC && peakC <= highC))
    const largest = suited.reduce<(typeof classes)[number] | undefined>(
      (a, b) => (a && size(a) >= size(b) ? a : b),
      undefined,
    )
    if (largest === undefined && items.some((item) => isWanted.has(item)))
      classes.push({ peakC: lowC, items: [...items] })
    else (largest?.items ?? unsuited).push(...items)
  }
  const made = classes.map(({ items }) => ({
    wanted: items.filter((item) => isWanted.has(item)),
    fillers: items.filter((item) => !isWanted.has(item)),
  }))
  return {
    classes: made.filter((heat) => heat.wanted.length > 0),
    unsuited: [...unsuited, ...made.flatMap((heat) => (heat.wanted.length > 0 ? [] : heat.fillers))],
  }
}

type Bound = { readonly items: LoadItem[]; lowC: number; highC: number }

/** Sets, and lids with their pots, with the heat that suits all of them. */
function boundTogether(items: readonly LoadItem[]): Bound[] {
  const byKey = new Map<string, Bound>()
  const byGroup = new Map<string, Bound>()
  const pots = items.filter(({ lidOf }) => lidOf === undefined)
  for (const item of [...pots, ...items.filter(({ lidOf }) => lidOf !== undefined)]) {
    const known = (item.group === undefined ? undefined : byGroup.get(item.group)) ?? byKey.get(item.lidOf ?? '')
    const bound = known ?? { items: [], lowC: -Infinity, highC: Infinity }
    bound.items.push(item)
    bound.lowC = Math.max(bound.lowC, item.firing?.lowC ?? -Infinity)
    bound.highC = Math.min(bound.highC, item.firing?.highC ?? Infinity)
    byKey.set(item.key, bound)
    if (item.group !== undefined) byGroup.set(item.group, bound)
  }
  return [...new Set(byKey.values())]
}

function peaksFor(bounds: readonly Bound[]): number[] {
  const peaks: number[] = []
  for (const { lowC, highC } of [...bounds].sort((a, b) => a.highC - b.highC)) {
    const last = peaks.at(-1)
    if (last === undefined || lowC > last) peaks.push(highC)
  }
  return peaks
}
