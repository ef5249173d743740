/**
 * Integer variables known by their bounds only, a trail of how the bounds rose, and the way back.
 *
 * A variable x has two sides: side 2x holds the lower bound of x, side 2x + 1 the lower bound of -x (minus the upper
 * bound of x). So every deduction raises a side, and the only literal is "side >= least". Its negation is
 * "side ^ 1 >= 1 - least". Minutes cost nothing: there is no domain.
 *
 * @see Schutt, Feydy, Stuckey, Wallace (2013), Solving RCPSP/max by lazy clause generation, J. Scheduling 16
 */
export type Engine = {
  /** By side. */
  readonly value: Int32Array
  /** By side: the newest entry of the trail that raised it, or -1. */
  readonly newest: Int32Array
  readonly trail: Trail
  /** The length the trail had when each level was begun; its length is the current level. */
  readonly levelStarts: number[]
  readonly propagators: Propagator[]
  /** Flat literals (side, least), all true, that cannot hold together: filled when a propagator fails. */
  readonly conflict: number[]
  /** Deduces "side >= least". `a` and `b` are handed back to the propagator's `explain`. @returns false if impossible */
  readonly raise: (side: number, least: number, reason: number, a: number, b: number) => boolean
  /** Begins a level with the guess "side >= least". */
  readonly decide: (side: number, least: number) => void
  readonly undoTo: (level: number, onUndone: (side: number) => void) => void
  /** The entry of the trail that made the (true) literal true, or -1 if it was so from the beginning. */
  readonly entryOf: (side: number, least: number) => number
  /** Whether the literal held before that entry of the trail was made. */
  readonly heldBefore: (side: number, least: number, entry: number) => boolean
  readonly valueBefore: (side: number, entry: number) => number
  readonly levelOf: (entry: number) => number
}

export type Trail = {
  length: number
  /** Entries before it have been handed to the propagators. */
  handedOn: number
  side: Int32Array
  /** The side's value before. */
  old: Int32Array
  /** The entry that raised the same side before, or -1. */
  previous: Int32Array
  /** Index of the propagator, or one of `DECISION`, `ROOT_FACT`. */
  reason: Int32Array
  a: Int32Array
  b: Int32Array
}

/** Whatever raises sides, and can tell why. */
export type Propagator = {
  /**
   * Pushes true literals that imply "side >= least", all of which held before trail entry `entry`.
   * `least` may be weaker than what was deduced, which often allows weaker literals.
   */
  readonly explain: (side: number, least: number, a: number, b: number, entry: number, out: number[]) => void
}

/** A propagator that follows every rise of a side at once. */
export type EagerPropagator = Propagator & {
  /** @param before what the side was; it may have risen further since @returns false if that is impossible */
  readonly onRaise: (side: number, before: number) => boolean
}

/** A propagator that costs more than a look at one side: woken by the sides it reads, run when nothing else is left. */
export type QueuedPropagator = Propagator & {
  readonly wakingSides: readonly number[]
  readonly run: () => boolean
}

/** Stands for "no bound": far outside every time and cost, with room to add two of them. */
export const FAR = 0x3fffffff
export const DECISION = -1
export const ROOT_FACT = -2

/** @param lower, upper by variable */
export function createEngine(lower: readonly number[], upper: readonly number[]): Engine {
  const sides = 2 * lower.length
  const value = new Int32Array(sides)
  lower.forEach((bound, variable) => (value[2 * variable] = bound))
  upper.forEach((bound, variable) => (value[2 * variable + 1] = -bound))
  const newest = new Int32Array(sides).fill(-1)
  const trail = emptyTrail(1 << 14)
  const levelStarts: number[] = []
  const propagators: Propagator[] = []
  const conflict: number[] = []

  const raise = (side: number, least: number, reason: number, a: number, b: number): boolean => {
    const now = value[side]!
    if (now >= least) return true
    if (value[side ^ 1]! >= 1 - least) {
      conflict.length = 0
      if (reason >= 0) propagators[reason]!.explain(side, least, a, b, trail.length, conflict)
      conflict.push(side ^ 1, 1 - least)
      return false
    }
    const entry = trail.length++
    if (entry >= trail.side.length) grow(trail)
    trail.side[entry] = side
    trail.old[entry] = now
    trail.previous[entry] = newest[side]!
    trail.reason[entry] = reason
    trail.a[entry] = a
    trail.b[entry] = b
    newest[side] = entry
    value[side] = least
    return true
  }

  const undoTo = (level: number, onUndone: (side: number) => void): void => {
    if (levelStarts.length <= level) return
    const length = levelStarts[level]!
    for (let entry = trail.length - 1; entry >= length; entry--) {
      const side = trail.side[entry]!
      onUndone(side)
      value[side] = trail.old[entry]!
      newest[side] = trail.previous[entry]!
    }
    trail.length = length
    trail.handedOn = length
    levelStarts.length = level
  }

  const entryOf = (side: number, least: number): number => {
    let entry = newest[side]!
    while (entry >= 0 && trail.old[entry]! >= least) entry = trail.previous[entry]!
    return entry
  }

  const valueBefore = (side: number, entry: number): number => {
    let before = value[side]!
    for (let at = newest[side]!; at >= entry; at = trail.previous[at]!) before = trail.old[at]!
    return before
  }

  const levelOf = (entry: number): number => {
    let low = 0
    let high = levelStarts.length
    while (low < high) {
      const middle = (low + high) >> 1
      if (levelStarts[middle]! <= entry) low = middle + 1
      else high = middle
    }
    return low
  }

  return {
    value,
    newest,
    trail,
    levelStarts,
    propagators,
    conflict,
    raise,
    decide: (side, least) => {
      levelStarts.push(trail.length)
      raise(side, least, DECISION, 0, 0)
    },
    undoTo,
    entryOf,
    heldBefore: (side, least, entry) => value[side]! >= least && entryOf(side, least) < entry,
    valueBefore,
    levelOf,
  }
}

function emptyTrail(room: number): Trail {
  const column = () => new Int32Array(room)
  return {
    length: 0,
    handedOn: 0,
    side: column(),
    old: column(),
    previous: column(),
    reason: column(),
    a: column(),
    b: column(),
  }
}

function grow(trail: Trail): void {
  for (const column of ['side', 'old', 'previous', 'reason', 'a', 'b'] as const) {
    const wider = new Int32Array(trail[column].length * 2)
    wider.set(trail[column])
    trail[column] = wider
  }
}
