import { intersectionOf, type Interval } from '../../../time.ts'

/** Disjoint rising spans, flat: start, end (not included), start, end ... */
export type Spans = Int32Array

/** When a firing of that length may start so that it lies in the hours with the set-up before it. */
export function spansToStart(
  durationMin: number,
  setupMin: number,
  starts: readonly Interval[] | undefined,
  hours: readonly Interval[] | undefined,
  horizonMin: number,
): Spans {
  const whole = [{ startMin: 0, endMin: horizonMin - durationMin + 1 }]
  const inHours = hours?.map(({ startMin, endMin }) => ({
    startMin: startMin + setupMin,
    endMin: endMin - durationMin + 1,
  }))
  // Hours that touch are not one: a firing does not run from one into the next. Nor do their starts touch.
  const allowed = [whole, inHours, starts].reduce<readonly Interval[]>(
    (left, more) => (more ? intersectionOf(left, more.filter(isSome)) : left),
    whole,
  )
  return Int32Array.from(allowed.flatMap(({ startMin, endMin }) => [startMin, endMin]))
}

const isSome = ({ startMin, endMin }: Interval): boolean => endMin > startMin

/** The first minute from `fromMin` on that lies in a span; Infinity if none does. */
export function firstIn(spans: Spans, fromMin: number): number {
  let low = 0
  let high = spans.length >> 1
  while (low < high) {
    const middle = (low + high) >> 1
    if (spans[2 * middle + 1]! <= fromMin) low = middle + 1
    else high = middle
  }
  return 2 * low < spans.length ? Math.max(fromMin, spans[2 * low]!) : Infinity
}
