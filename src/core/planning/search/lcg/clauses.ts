import type { Engine, Propagator } from './engine.ts'

/**
 * Clauses over bound literals, the model's and the learned ones, each watched at two literals that are not false.
 * They lie end to end in one array: size, learned index or -1, then side and least of each literal.
 */
export type Clauses = Propagator & {
  /** Adds at level 0. @returns false if it contradicts the rest */
  readonly add: (literals: readonly number[]) => boolean
  /** The first literal is to be deduced now, the second is the one that becomes free first on the way back. */
  readonly learn: (literals: readonly number[]) => boolean
  readonly learnedCount: () => number
  /** A learned clause helped to explain a conflict. */
  readonly bump: (clause: number) => void
  readonly decay: () => void
  /** Forgets the less active half of the learned clauses. Only at level 0. */
  readonly forget: () => void
}

const HEADER = 2

/** A watch: [least at which the watched literal is false, clause, side and least of another literal of the clause]. */
const WATCH = 4

export function clausePropagator(engine: Engine): Clauses {
  const { value, raise } = engine
  const own = engine.propagators.length
  const watches: number[][] = Array.from({ length: value.length }, () => [])
  let store = new Int32Array(1 << 14)
  let used = 0
  let activity: number[] = []
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
    watches[store[at]! ^ 1]!.push(1 - store[at + 1]!, clause, store[blocker]!, store[blocker + 1]!)
  }

  const onRaise = (side: number): boolean => {
    const list = watches[side]!
    const now = value[side]!
    let kept = 0
    let good = true
    let i = 0
    for (; i < list.length && good; i += WATCH) {
      if (now < list[i]! || value[list[i + 2]!]! >= list[i + 3]!) {
        kept = keepWatch(list, i, kept)
        continue
      }
      const clause = list[i + 1]!
      const head = clause + HEADER
      // The false literal goes second; a clause may watch the same side twice, so the least decides too.
      if ((store[head]! ^ 1) === side && 1 - store[head + 1]! === list[i]!) swap(head, head + 2)
      if (value[store[head]!]! >= store[head + 1]!) {
        list[i + 2] = store[head]!
        list[i + 3] = store[head + 1]!
        kept = keepWatch(list, i, kept)
        continue
      }
      if (watchAnother(clause)) continue
      kept = keepWatch(list, i, kept)
      good = raise(store[head]!, store[head + 1]!, own, clause, 0)
    }
    for (; i < list.length; i += WATCH) kept = keepWatch(list, i, kept)
    list.length = kept
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

  const learn = (literals: readonly number[]): boolean => {
    if (literals.length === 2) return raise(literals[0]!, literals[1]!, own, -1, 0)
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
    for (const list of watches) list.length = 0
    activity = []
    used = 0
    for (let clause = 0; clause < old.length; clause += HEADER + 2 * old[clause]!) {
      const index = old[clause + 1]!
      const literals = [...old.subarray(clause + HEADER, clause + HEADER + 2 * old[clause]!)]
      if (index < 0) putIfOpen(literals, -1)
      else if (literals.length <= 4 || oldActivity[index]! > median) putIfOpen(literals, oldActivity[index]!)
    }
  }

  /** At level 0 a clause with a true literal says nothing more, and a false literal can go. */
  const putIfOpen = (literals: readonly number[], itsActivity: number): void => {
    const open: number[] = []
    for (let i = 0; i < literals.length; i += 2) {
      if (value[literals[i]!]! >= literals[i + 1]!) return
      if (value[literals[i]! ^ 1]! < 1 - literals[i + 1]!) open.push(literals[i]!, literals[i + 1]!)
    }
    put(open, itsActivity < 0 ? -1 : activity.push(itsActivity) - 1)
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

function keepWatch(list: number[], from: number, to: number): number {
  if (from !== to) for (let k = 0; k < WATCH; k++) list[to + k] = list[from + k]!
  return to + WATCH
}
