import type { EagerPropagator, Engine } from './engine.ts'
import { createWatches, firstFrom, WATCH } from './watches.ts'

/**
 * Clauses over bound literals, the model's and the learned ones, each watched at two literals that are not false.
 * They lie end to end in one array: size, learned index or -1, then side and least of each literal.
 */
export type Clauses = EagerPropagator & {
  /** Adds at level 0. @returns false if it contradicts the rest */
  readonly add: (literals: readonly number[]) => boolean
  /** The first literal is to be deduced now, the second is the one that becomes free first on the way back. */
  readonly learn: (lesson: Lesson) => boolean
  readonly learnedCount: () => number
  /** A learned clause helped to explain a conflict. */
  readonly bump: (clause: number) => void
  readonly decay: () => void
  /**
   * Forgets the less active half of the learned clauses, but none from few levels. Only at level 0.
   * @see Audemard & Simon (2009), Predicting learnt clauses quality in modern SAT solvers (levels)
   */
  readonly forget: () => void
}

/** What a conflict teaches. */
export type Lesson = {
  /** The clause, its first literal to be deduced after going back to `backLevel`. */
  readonly literals: readonly number[]
  readonly backLevel: number
  /** From how many levels its literals come: few make a clause that is useful often. */
  readonly levelCount: number
}

const HEADER = 2

/** Clauses from at most so many levels are kept for good. */
const KEPT_LEVELS = 3

export function clausePropagator(engine: Engine): Clauses {
  const { value, raise } = engine
  const own = engine.propagators.length
  const watches = createWatches(value.length)
  let store = new Int32Array(1 << 14)
  let used = 0
  /** By learned index. */
  let activity: number[] = []
  let levelCounts: number[] = []
  let increment = 1

  const put = (literals: readonly number[], learnedIndex: number): number => {
    const size = literals.length >> 1
    if (used + HEADER + 2 * size > store.length) {
      const wider = new Int32Array(Math.max(store.length * 2, used + HEADER + 2 * size))
      wider.set(store)
      store = wider
    }
    const clause = used
    store[clause] = size
    store[clause + 1] = learnedIndex
    store.set(literals, clause + HEADER)
    used += HEADER + 2 * size
    watch(clause, 0, 1)
    watch(clause, 1, 0)
    return clause
  }

  const watch = (clause: number, literal: number, other: number): void => {
    const at = clause + HEADER + 2 * literal
    const blocker = clause + HEADER + 2 * other
    watches.add(store[at]!, store[at + 1]!, clause, store[blocker]!, store[blocker + 1]!)
  }

  /** A literal that was false before has seen its clauses true by another, and both change on the way back. */
  const onRaise = (side: number, before: number): boolean => {
    const falseFrom = watches.falseFrom[side]!
    const now = value[side]!
    for (let i = firstFrom(falseFrom, before + 1); i < falseFrom.length && falseFrom[i]! <= now; i++) {
      if (!follow(watches.lists[side]![i]!, side, falseFrom[i]!)) return false
    }
    return true
  }

  /** The literal that becomes false when the side comes to `falseFrom` is false now: so say the clauses watching it. */
  const follow = (list: number[], side: number, falseFrom: number): boolean => {
    let kept = 0
    let good = true
    let i = 0
    for (; i < list.length && good; i += WATCH) {
      if (value[list[i + 1]!]! >= list[i + 2]!) {
        if (kept !== i) keepWatch(list, i, kept)
        kept += WATCH
        continue
      }
      const clause = list[i]!
      const head = clause + HEADER
      // The false literal goes second; a clause may watch the same side twice, so the least decides too.
      if ((store[head]! ^ 1) === side && 1 - store[head + 1]! === falseFrom) swap(head, head + 2)
      const isTrue = value[store[head]!]! >= store[head + 1]!
      if (!isTrue && watchAnother(clause)) continue
      list[i + 1] = store[head]!
      list[i + 2] = store[head + 1]!
      if (kept !== i) keepWatch(list, i, kept)
      kept += WATCH
      if (!isTrue) good = raise(store[head]!, store[head + 1]!, own, clause, 0)
    }
    if (kept === i) return good
    for (; i < list.length; i += WATCH, kept += WATCH) keepWatch(list, i, kept)
    // Few go, and taking them off one by one is quicker than setting the length.
    while (list.length > kept) list.pop()
    return good
  }

  const watchAnother = (clause: number): boolean => {
    const head = clause + HEADER
    const end = head + 2 * store[clause]!
    for (let at = head + 4; at < end; at += 2) {
      if (value[store[at]! ^ 1]! < 1 - store[at + 1]!) {
        swap(head + 2, at)
        watch(clause, 1, 0)
        return true
      }
    }
    return false
  }

  const swap = (at: number, other: number): void => {
    const side = store[at]!
    const least = store[at + 1]!
    store[at] = store[other]!
    store[at + 1] = store[other + 1]!
    store[other] = side
    store[other + 1] = least
  }

  const learn = ({ literals, levelCount }: Lesson): boolean => {
    if (literals.length === 2) return raise(literals[0]!, literals[1]!, own, -1, 0)
    levelCounts.push(levelCount)
    const clause = put(literals, activity.push(increment) - 1)
    return raise(literals[0]!, literals[1]!, own, clause, 0)
  }

  const add = (literals: readonly number[]): boolean => {
    const open: number[] = []
    for (let i = 0; i < literals.length; i += 2) {
      if (value[literals[i]!]! >= literals[i + 1]!) return true
      if (value[literals[i]! ^ 1]! < 1 - literals[i + 1]!) open.push(literals[i]!, literals[i + 1]!)
    }
    if (open.length === 0) return false
    if (open.length === 2) return raise(open[0]!, open[1]!, own, -1, 0)
    put(open, -1)
    return true
  }

  const bump = (clause: number): void => {
    const index = clause < 0 ? -1 : store[clause + 1]!
    if (index < 0) return
    activity[index]! += increment
    if (activity[index]! > 1e100) {
      activity = activity.map((of) => of * 1e-100)
      increment *= 1e-100
    }
  }

  const forget = (): void => {
    const median = activity.toSorted((a, b) => a - b)[activity.length >> 1] ?? 0
    const old = store.slice(0, used)
    const oldActivity = activity
    const oldLevelCounts = levelCounts
    watches.clear()
    activity = []
    levelCounts = []
    used = 0
    for (let clause = 0; clause < old.length; clause += HEADER + 2 * old[clause]!) {
      const index = old[clause + 1]!
      const literals = [...old.subarray(clause + HEADER, clause + HEADER + 2 * old[clause]!)]
      if (index < 0) putIfOpen(literals, () => -1)
      else if (oldLevelCounts[index]! <= KEPT_LEVELS || oldActivity[index]! > median)
        putIfOpen(literals, () => {
          levelCounts.push(oldLevelCounts[index]!)
          return activity.push(oldActivity[index]!) - 1
        })
    }
  }

  /** At level 0 a clause with a true literal says nothing more, and a false literal can go. */
  const putIfOpen = (literals: readonly number[], newIndex: () => number): void => {
    const open: number[] = []
    for (let i = 0; i < literals.length; i += 2) {
      if (value[literals[i]!]! >= literals[i + 1]!) return
      if (value[literals[i]! ^ 1]! < 1 - literals[i + 1]!) open.push(literals[i]!, literals[i + 1]!)
    }
    put(open, newIndex())
  }

  return {
    onRaise,
    explain: (side, least, clause, _b, _entry, out) => {
      if (clause < 0) return
      const end = clause + HEADER + 2 * store[clause]!
      for (let at = clause + HEADER; at < end; at += 2) {
        if (store[at]! !== side || store[at + 1]! < least) out.push(store[at]! ^ 1, 1 - store[at + 1]!)
      }
    },
    add,
    learn,
    learnedCount: () => activity.length,
    bump,
    decay: () => {
      increment *= 1.001
    },
    forget,
  }
}

function keepWatch(list: number[], from: number, to: number): void {
  for (let k = 0; k < WATCH; k++) list[to + k] = list[from + k]!
}
