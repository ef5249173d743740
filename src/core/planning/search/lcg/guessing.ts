import { createActivityHeap } from './activityHeap.ts'
import type { Engine } from './engine.ts'
import type { Literal, Model } from './model.ts'

export type Branching = {
  /** Guessed first, all at one level, as they are. */
  readonly assumptions: readonly Literal[]
  /** Variables to be fixed for a solution. Between conflicts they are taken by least lower bound, or by activity. */
  readonly starts: readonly number[]
  /** 0-1 variables decided before the starts, each with the side it is tried on first. */
  readonly choices: readonly Literal[]
  /** By variable: a value worth trying, or undefined. */
  readonly guide?: (variable: number) => number | undefined
  readonly coin: () => number
  /** A short search: restarts come soon, and it begins by activity. */
  readonly isShort?: boolean
}

/** What is guessed next, and what is remembered for it. */
export type Guessing = {
  /** Once, before the first guess. @returns whether this was the first time */
  readonly begin: (branching: Branching) => boolean
  /** Begins a level with a guess. @returns false if all is settled */
  readonly guess: (branching: Branching, byActivity: boolean) => boolean
  /** A conflict rested on the side. */
  readonly bump: (side: number) => void
  readonly decay: () => void
  /** The side still has the value that is about to be undone. */
  readonly beforeUndo: (side: number) => void
}

/**
 * By activity the variable on which conflicts rested most lately, 0-1 variables as they were last, starts as the guide
 * has them; else the choices in turn, then the start that can be earliest, as early as it can.
 */
export function createGuessing(engine: Engine, model: Model): Guessing {
  const { value } = engine
  const variableCount = model.lower.length
  const heap = createActivityHeap(variableCount)
  const lastGuess = new Int8Array(variableCount).fill(-1)
  const branches = new Uint8Array(variableCount)
  const startSet = new Set<number>()

  const isOpen = (variable: number): boolean => value[2 * variable]! < -value[2 * variable + 1]!
  const canBeGuessed = (variable: number): boolean => isOpen(variable) && branches[variable] === 1

  const earliest = (starts: readonly number[]): number => {
    let found = -1
    for (const start of starts) {
      if (!isOpen(start)) continue
      if (found < 0 || value[2 * start]! < value[2 * found]!) found = start
      else if (value[2 * start] === value[2 * found] && value[2 * start + 1]! > value[2 * found + 1]!) found = start
    }
    return found
  }

  const guess: Guessing['guess'] = ({ starts, choices, guide, coin }, byActivity) => {
    let variable = byActivity ? heap.mostActive(canBeGuessed) : -1
    if (variable < 0) {
      const choice = choices.find(({ side }) => isOpen(side >> 1))
      if (choice) {
        engine.decide(choice.side, choice.least)
        return true
      }
      variable = earliest(starts)
    }
    if (variable < 0) return false
    const least = value[2 * variable]!
    const isBit = model.lower[variable] === 0 && model.upper[variable] === 1
    if (isBit && !startSet.has(variable)) {
      const up = lastGuess[variable] === -1 ? coin() < 0.5 : lastGuess[variable] === 1
      if (up) engine.decide(2 * variable, 1)
      else engine.decide(2 * variable + 1, 0)
      return true
    }
    const wanted = byActivity ? guide?.(variable) : undefined
    if (wanted !== undefined && wanted > least && wanted <= -value[2 * variable + 1]!)
      engine.decide(2 * variable, wanted)
    else engine.decide(2 * variable + 1, -least)
    return true
  }

  return {
    begin: ({ starts }) => {
      if (startSet.size > 0) return false
      for (const start of starts) startSet.add(start)
      for (const { condition } of model.conditionalArcs) branches[condition.side >> 1] = 1
      for (const start of starts) branches[start] = 1
      return true
    },
    guess,
    bump: (side) => heap.bump(side >> 1),
    decay: heap.decay,
    beforeUndo: (side) => {
      const variable = side >> 1
      if (value[2 * variable] === 1 && value[2 * variable + 1] === -1) lastGuess[variable] = 1
      else if (value[2 * variable] === 0 && value[2 * variable + 1] === 0) lastGuess[variable] = 0
      heap.put(variable)
    },
  }
}
