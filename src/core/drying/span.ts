import type { Minute } from '../time.ts'
import type { NoSpan, Span, WindowTable } from './types.ts'

/**
 * The longest span in which a step can be done at the odds asked for, at both ends together: the longest [a, b] such
 * that a future like the draws, but not among them, opens by a and closes no sooner than b at these odds or better.
 * Between two cut times of the table the earlier one counts.
 * @param odds 0 up to, not including, 1; n draws can promise no more than (n - 1) / (n + 1)
 * @returns whole minutes, open rounded up and close rounded down
 */
export function spanAt(table: WindowTable, cutMin: Minute, odds: number): Span | NoSpan {
  const cut = rowAt(table.cutMin, cutMin)
  if (cut < 0) return { empty: true, part: 0, why: { code: 'not-in-table', params: { cutMin } } }
  const opens = table.openMin[cut]!
  const closes = table.closeMin[cut]!
  const mayMiss = missesAllowed(opens.length, odds)
  const best = longestSpan(opens, closes, mayMiss)
  if (best) return { empty: false, ...best, binding: table.closes[cut]! }
  return whyNone(table, cut, odds, mayMiss)
}

/**
 * How many of the draws a span may miss for the odds to hold in a future that is not among them: each end of the span
 * lies on a draw, so of count + 1 alike futures it is expected to miss two more than it was allowed. Below 0, the draws
 * are too few for such odds. (That it is the longest of many costs one point more at 90 %, measured on other draws.)
 * @see Calafiore & Campi (2006), The scenario approach to robust control design: two decisions, two scenarios of support
 */
const missesAllowed = (count: number, odds: number): number => Math.floor((count + 1) * (1 - odds) + 1e-9) - 2

/** Index of the last cut time at or before `cutMin`; -1 before the first. */
function rowAt(cutTimes: readonly Minute[], cutMin: Minute): number {
  let low = -1
  let high = cutTimes.length
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (cutTimes[middle]! <= cutMin) low = middle
    else high = middle
  }
  return low
}

/**
 * Drops the draws that may be missed, some for opening late and the rest for closing early, in every such way: from
 * the draws that open first, one more is let in at a time, and of their closes as many of the earliest are let go as the
 * late ones leave.
 */
export function longestSpan(
  opens: readonly number[],
  closes: readonly number[],
  mayMiss: number,
): { startMin: Minute; endMin: Minute } | undefined {
  const count = opens.length
  const byOpen = inOrder(opens)
  const earliest: number[] = []
  let startMin = 0
  let endMin = 0
  for (let held = 0; held < count; held++) {
    const draw = byOpen[held]!
    insert(earliest, closes[draw]!)
    const late = count - 1 - held
    if (late > mayMiss) continue
    const start = Math.ceil(opens[draw]!)
    const end = Math.floor(earliest[mayMiss - late]!)
    if (end - start > endMin - startMin && start < Infinity) {
      startMin = start
      endMin = end
    }
  }
  return endMin > startMin ? { startMin, endMin } : undefined
}

/** Up to here, inserting beats the engine's own sort. */
const FEW = 64

/** Indices by rising value. */
function inOrder(values: readonly number[]): number[] {
  const order: number[] = []
  for (let i = 0; i < values.length; i++) order.push(i)
  if (values.length > FEW) return order.sort((a, b) => values[a]! - values[b]!)
  for (let i = 1; i < order.length; i++) {
    const value = values[i]!
    let place = i
    while (place > 0 && values[order[place - 1]!]! > value) {
      order[place] = order[place - 1]!
      place--
    }
    order[place] = i
  }
  return order
}

/** Puts a value into a rising list. */
function insert(rising: number[], value: number): void {
  let place = rising.length
  rising.push(value)
  while (place > 0 && rising[place - 1]! > value) {
    rising[place] = rising[place - 1]!
    place--
  }
  rising[place] = value
}

/** What stands in the way, said by what ends most windows at this cut. */
function whyNone(table: WindowTable, cut: number, odds: number, mayMiss: number): NoSpan {
  const opens = table.openMin[cut]!
  const closes = table.closeMin[cut]!
  const count = opens.length
  const neverOpen = opens.filter((open) => open === Infinity).length
  const everOpen = opens.filter((open, d) => closes[d]! > open).length
  const { part, by } = table.closes[cut]!
  if (neverOpen > count / 2) {
    return {
      empty: true,
      part: table.opens[cut]!.part,
      why: { code: 'never-firm-enough', params: { drawCount: count, neverOpen } },
    }
  }
  if (mayMiss < 0 && everOpen > count / 2) {
    return { empty: true, part, why: { code: 'too-few-draws', params: { odds, drawCount: count } } }
  }
  const code = everOpen > count / 2 ? 'odds-too-thin' : 'closes-before-it-opens'
  return { empty: true, part, why: { code, params: { by, odds, openShare: everOpen / count } } }
}
