import type { Clauses, Lesson } from './clauses.ts'
import { FAR, type Engine } from './engine.ts'

export type Analyser = {
  /** The level at which the literals of a conflict were all true; at 0 it holds without any decision. */
  readonly levelOf: (conflict: readonly number[]) => number
  /** @returns undefined if the conflict holds without any decision */
  readonly learnFrom: (conflict: readonly number[]) => Lesson | undefined
  /** The decisions that a false (or conflicting) state rests on, as flat literals. */
  readonly decisionsBehind: (conflict: readonly number[]) => number[]
}

const NOT_NEEDED = -FAR - 1

/**
 * First unique implication point on bound literals. `need[side]` is the least value of a side that the conflict still
 * rests on: literals of one side merge into the stronger. From the newest entry of the trail back, each needed one is
 * replaced by its explanation until one of the current level is left; then literals that the others imply are dropped.
 * @see Marques-Silva & Sakallah (1999), GRASP; Sörensson & Biere (2009), Minimizing learned clauses
 */
export function createAnalyser(
  engine: Engine,
  clauses: Clauses,
  clauseReason: number,
  bump: (side: number) => void,
): Analyser {
  const { trail, value, levelStarts, entryOf, levelOf } = engine
  const need = new Int32Array(value.length).fill(NOT_NEEDED)
  const touched: number[] = []
  const buffer: number[] = []
  /** By trail entry and round: whether its literal has been found to follow from the others, for `follows`. */
  let open = 0
  let currentStart = 0

  const demand = (side: number, least: number): void => {
    const entry = entryOf(side, least)
    if (entry < levelStarts[0]! || need[side]! >= least) return
    if (need[side] === NOT_NEEDED) touched.push(side)
    else if (entryOf(side, need[side]!) >= currentStart) open--
    need[side] = least
    if (entry >= currentStart) open++
  }

  const demandAll = (literals: readonly number[]): void => {
    for (let i = 0; i < literals.length; i += 2) demand(literals[i]!, literals[i + 1]!)
  }

  const explain = (entry: number, least: number): readonly number[] => {
    buffer.length = 0
    const reason = trail.reason[entry]!
    if (reason >= 0) {
      engine.propagators[reason]!.explain(trail.side[entry]!, least, trail.a[entry]!, trail.b[entry]!, entry, buffer)
    }
    return buffer
  }

  const isNeededAt = (entry: number): boolean => need[trail.side[entry]!]! > trail.old[entry]!

  const newestEntry = (literals: readonly number[]): number => {
    let newest = -1
    for (let i = 0; i < literals.length; i += 2) newest = Math.max(newest, entryOf(literals[i]!, literals[i + 1]!))
    return newest
  }

  /** Whether the literal made at `entry` follows from needed literals older than it, at most `depth` steps away. */
  const follows = (entry: number, least: number, depth: number): boolean => {
    if (trail.reason[entry] === -1) return false
    const because = [...explain(entry, least)]
    for (let i = 0; i < because.length; i += 2) {
      const side = because[i]!
      const itsLeast = because[i + 1]!
      const itsEntry = entryOf(side, itsLeast)
      if (itsEntry < levelStarts[0]!) continue
      // The supporting literal must be older than the one it removes, else two may justify each other.
      if (need[side]! >= itsLeast && entryOf(side, need[side]!) < entry) continue
      if (depth === 0 || !follows(itsEntry, itsLeast, depth - 1)) return false
    }
    return true
  }

  const clear = (): void => {
    for (const side of touched) need[side] = NOT_NEEDED
    touched.length = 0
  }

  const learnFrom = (conflict: readonly number[]): Lesson | undefined => {
    const level = levelOf(newestEntry(conflict))
    if (level === 0) return undefined
    currentStart = levelStarts[level - 1]!
    open = 0
    demandAll(conflict)
    let entry = newestEntry(conflict)
    for (; ; entry--) {
      if (!isNeededAt(entry)) continue
      const side = trail.side[entry]!
      bump(side)
      if (open === 1) break
      const least = need[side]!
      need[side] = NOT_NEEDED
      touched.splice(touched.lastIndexOf(side), 1)
      open--
      if (trail.reason[entry] === clauseReason) clauses.bump(trail.a[entry]!)
      demandAll(explain(entry, least))
    }
    const lesson = lessonFrom(trail.side[entry]!)
    clear()
    return lesson
  }

  const lessonFrom = (asserted: number): Lesson => {
    const literals = [asserted ^ 1, 1 - need[asserted]!]
    let backLevel = 0
    let newest = 0
    const levels = new Set<number>()
    for (const side of touched) {
      if (side === asserted) continue
      const entry = entryOf(side, need[side]!)
      if (follows(entry, need[side]!, 2)) continue
      bump(side)
      literals.push(side ^ 1, 1 - need[side]!)
      const level = levelOf(entry)
      levels.add(level)
      if (level > backLevel) {
        backLevel = level
        newest = literals.length - 2
      }
    }
    if (newest > 0) swapPairs(literals, 2, newest)
    return { literals, backLevel, levelCount: levels.size + 1 }
  }

  const decisionsBehind = (conflict: readonly number[]): number[] => {
    const decisions: number[] = []
    if (levelStarts.length === 0) return decisions
    currentStart = 0
    demandAll(conflict)
    for (let entry = trail.length - 1; entry >= levelStarts[0]!; entry--) {
      if (!isNeededAt(entry)) continue
      const side = trail.side[entry]!
      const least = need[side]!
      need[side] = NOT_NEEDED
      if (trail.reason[entry]! < 0) decisions.push(side, least)
      else demandAll(explain(entry, least))
    }
    clear()
    return decisions
  }

  return { levelOf: (conflict) => levelOf(newestEntry(conflict)), learnFrom, decisionsBehind }
}

function swapPairs(list: number[], i: number, j: number): void {
  for (let k = 0; k < 2; k++) {
    const kept = list[i + k]!
    list[i + k] = list[j + k]!
    list[j + k] = kept
  }
}
