import type { Minute } from '../time.ts'
import type { NoSpan, Span, WindowTable } from './types.ts'

/**
 * The longest span in which a step can be done at the odds asked for, at both ends together: the longest [a, b] such
 * that in at least that share of the draws the window opens by a and closes no sooner than b. Between two cut times of
 * the table the earlier one counts.
 * @param odds 0 up to 1; at 1 it must hold in every draw
 * @returns whole minutes, open rounded up and close rounded down
 */
export function spanAt(table: WindowTable, cutMin: Minute, odds: number): Span | NoSpan {
  const cut = rowAt(table.cutMin, cutMin)
  if (cut < 0) return { empty: true, part: 0, why: { code: 'not-in-table', params: { cutMin } } }
  const opens = table.openMin[cut]!
  const closes = table.closeMin[cut]!
  const best = longestSpan(opens, closes, odds)
  if (best) return { empty: false, ...best, binding: table.closes[cut]! }
  return whyNone(table, cut, odds)
}

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
 * Drops the draws that odds allow to miss, k of them for opening late and the rest for closing early, for every k.
 * At most one draw in ten or so may miss, so this is a handful of passes over the draws.
 */
export function longestSpan(
  opens: readonly number[],
  closes: readonly number[],
  odds: number,
): { startMin: Minute; endMin: Minute } | undefined {
  const count = opens.length
  const mayMiss = Math.floor(count * (1 - odds) + 1e-9)
  const latestFirst = latestOpens(opens, mayMiss + 1)
  let best: { startMin: Minute; endMin: Minute } | undefined
  for (let late = 0; late <= mayMiss && late < count; late++) {
    const startMin = Math.ceil(latestFirst[late]!)
    const endMin = Math.floor(closeLeft(opens, closes, latestFirst[late]!, mayMiss))
    if (!Number.isFinite(startMin) || endMin <= startMin) continue
    if (!best || endMin - startMin > best.endMin - best.startMin) best = { startMin, endMin }
  }
  return best
}

/** The `count` latest opening times, latest first. */
function latestOpens(opens: readonly number[], count: number): number[] {
  const kept: number[] = []
  for (const open of opens) {
    if (kept.length === count && open <= kept[count - 1]!) continue
    let place = kept.length
    while (place > 0 && kept[place - 1]! < open) place--
    kept.splice(place, 0, open)
    if (kept.length > count) kept.pop()
  }
  return kept
}

/** Earliest close that is left when, beside the draws that open after `openMin`, the earliest closers may miss too. */
function closeLeft(opens: readonly number[], closes: readonly number[], openMin: number, mayMiss: number): number {
  let missed = 0
  for (const open of opens) if (open > openMin) missed++
  const dropped = mayMiss - missed
  if (dropped < 0) return -Infinity
  const earliest: number[] = []
  for (let d = 0; d < opens.length; d++) {
    if (opens[d]! > openMin) continue
    const close = closes[d]!
    if (earliest.length > dropped && close >= earliest[dropped]!) continue
    let place = earliest.length
    while (place > 0 && earliest[place - 1]! > close) place--
    earliest.splice(place, 0, close)
    if (earliest.length > dropped + 1) earliest.pop()
  }
  return earliest[dropped] ?? -Infinity
}

/** What stands in the way, said by what ends most windows at this cut. */
function whyNone(table: WindowTable, cut: number, odds: number): NoSpan {
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
  const code = everOpen > count / 2 ? 'odds-too-thin' : 'closes-before-it-opens'
  return { empty: true, part, why: { code, params: { by, odds, openShare: everOpen / count } } }
}
