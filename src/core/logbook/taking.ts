/** Which pieces an entry means, found without touching the books. */
import type { Books, Pile, RunDraft } from './books.ts'
import { isAlive } from './books.ts'

export type Portion = { readonly run: RunDraft; readonly count: number; readonly rank: number }
export type Portions = { readonly portions: readonly Portion[]; readonly missing: number }

/** How well a run fits what is said of it: 0 as it should be, higher with a question; null: it cannot be meant. */
export type Rank = (run: RunDraft) => number | null

/** One entry's hand: what it has already laid hold of for one member is not there for the next. */
export type Taking = {
  readonly fromRuns: (candidates: readonly RunDraft[], count: number, rank: Rank) => Portions
  readonly fromShelf: (
    count: number,
    suits: (pile: Pile) => boolean,
  ) => { readonly piles: readonly { readonly pile: Pile; readonly count: number }[]; readonly missing: number }
}

export function takingFrom(books: Books): Taking {
  const taken = new Map<RunDraft | Pile, number>()
  const take = (from: RunDraft | Pile, wanted: number): number => {
    const count = Math.min(wanted, from.count - (taken.get(from) ?? 0))
    if (count > 0) taken.set(from, (taken.get(from) ?? 0) + count)
    return Math.max(0, count)
  }
  return {
    fromRuns: (candidates, count, rank) => {
      const portions: Portion[] = []
      let missing = count
      for (const { run, rank: fit } of ranked(candidates, rank)) {
        const here = take(run, missing)
        if (here > 0) portions.push({ run, count: here, rank: fit })
        missing -= here
      }
      return { portions, missing }
    },
    fromShelf: (count, suits) => {
      const piles: { pile: Pile; count: number }[] = []
      let missing = count
      const suiting = [...books.shelf.values()].filter((pile) => pile.count > 0 && suits(pile))
      for (const pile of suiting.toSorted(byGlaze)) {
        const here = take(pile, missing)
        if (here > 0) piles.push({ pile, count: here })
        missing -= here
      }
      return { piles, missing }
    },
  }
}

/**
 * The run itself and all that came out of it, nearest first. A device that has not heard of a split still names the old run:
 * its entry goes to whichever part of the family it fits.
 */
export function familyOf(run: RunDraft): readonly RunDraft[] {
  if (run.children.length === 0) return [run]
  // A set grows while it is walked, and a run whose pieces came out of two others is still met once.
  const family = new Set([run])
  for (const member of family) for (const child of member.children) family.add(child)
  return [...family]
}

function ranked(candidates: readonly RunDraft[], rank: Rank): { run: RunDraft; rank: number }[] {
  const fitting: { run: RunDraft; rank: number }[] = []
  for (const run of candidates) {
    const fit = isAlive(run) ? rank(run) : null
    if (fit !== null) fitting.push({ run, rank: fit })
  }
  return fitting.toSorted((a, b) => a.rank - b.rank)
}

const byGlaze = (a: Pile, b: Pile): number =>
  (a.glazeId ?? '') < (b.glazeId ?? '') ? -1 : a.glazeId === b.glazeId ? 0 : 1
