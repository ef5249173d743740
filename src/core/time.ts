/**
 * Time inside the program: whole minutes since 1970-01-01T00:00Z, negatives allowed, never rebased. Zones, working
 * hours and daylight saving exist only at the edge (`src/app/calendar`), which turns them into these.
 */
export type Minute = number

/** Half open: from `startMin` up to, not including, `endMin`; `endMin` > `startMin`. */
export type Interval = { readonly startMin: Minute; readonly endMin: Minute }

/** Joins overlapping or touching intervals. @returns disjoint intervals in rising order */
export function unionOf(intervals: readonly Interval[]): Interval[] {
  const sorted = intervals
    .filter(({ startMin, endMin }) => endMin > startMin)
    .toSorted((a, b) => a.startMin - b.startMin)
  const joined: Interval[] = []
  for (const next of sorted) {
    const last = joined.at(-1)
    if (last && next.startMin <= last.endMin) {
      joined[joined.length - 1] = { startMin: last.startMin, endMin: Math.max(last.endMin, next.endMin) }
    } else joined.push(next)
  }
  return joined
}

/** What is left of `intervals` when `removed` is taken away: one sweep. @returns disjoint intervals in rising order */
export function withoutIntervals(intervals: readonly Interval[], removed: readonly Interval[]): Interval[] {
  const holes = unionOf(removed)
  const left: Interval[] = []
  let next = 0
  for (const { startMin, endMin } of unionOf(intervals)) {
    while (next < holes.length && holes[next]!.endMin <= startMin) next++
    let fromMin = startMin
    for (let i = next; i < holes.length && holes[i]!.startMin < endMin; i++) {
      if (holes[i]!.startMin > fromMin) left.push({ startMin: fromMin, endMin: holes[i]!.startMin })
      fromMin = Math.max(fromMin, holes[i]!.endMin)
    }
    if (fromMin < endMin) left.push({ startMin: fromMin, endMin })
  }
  return left
}

/** Where both lists have time. @returns disjoint intervals in rising order */
export function intersectionOf(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  const shared: Interval[] = []
  const left = unionOf(a)
  const right = unionOf(b)
  for (let i = 0, j = 0; i < left.length && j < right.length;) {
    const first = left[i]!
    const second = right[j]!
    const startMin = Math.max(first.startMin, second.startMin)
    const endMin = Math.min(first.endMin, second.endMin)
    if (endMin > startMin) shared.push({ startMin, endMin })
    if (first.endMin < second.endMin) i++
    else j++
  }
  return shared
}
