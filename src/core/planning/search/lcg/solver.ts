import { createAnalyser } from './analyse.ts'
import { arcPropagator } from './arcs.ts'
import { clausePropagator } from './clauses.ts'
import { conditionalArcPropagator } from './conditionalArcs.ts'
import { cumulativePropagator } from './cumulative.ts'
import { createEngine, DECISION, FAR, ROOT_FACT, type Engine, type Propagator } from './engine.ts'
import { createGuessing, type Branching } from './guessing.ts'
import { linearPropagator } from './linear.ts'
import type { Literal, Model } from './model.ts'
import { monotonePropagator } from './monotone.ts'
import { luby } from './luby.ts'
import { createWaking } from './waking.ts'

export type Solver = {
  readonly engine: Engine
  /** Seeks values of the branching variables. Call again to go on after `stopped`. */
  readonly run: (branching: Branching, limits: Limits) => Outcome
  /** Back to level 0, where facts and clauses are added. @returns false if nothing is possible any more */
  readonly addFact: (literal: Literal) => boolean
  readonly addClause: (literals: readonly number[]) => boolean
  readonly conflicts: () => number
  /** After `exhausted`: the assumptions that cannot hold together. Empty if it is impossible without any. */
  readonly core: () => readonly Literal[]
}

/** `exhausted` is a proof that nothing (more) satisfies the model under the assumptions. */
export type Outcome = 'found' | 'exhausted' | 'stopped'

export type Limits = { readonly conflicts: number; readonly cancelled: () => boolean }

const RESTART_UNIT = 100
const FIRST_RESTART = 250
const SHORT_RESTART_UNIT = 30
const LEARNED_LIMIT = 8000

/**
 * Lazy clause generation: propagate, guess, learn from each conflict, go back. Restarts (Luby) alternate between the
 * order of a schedule (earliest start first) and the order of activity, where the guide's values are tried.
 */
export function createSolver(model: Model): Solver {
  const engine = createEngine(model.lower, model.upper)
  const { value, trail, levelStarts, propagators, conflict } = engine
  const guessing = createGuessing(engine, model)
  let conflicts = 0
  let restarts = 0
  let untilRestart = FIRST_RESTART
  let learnedLimit = LEARNED_LIMIT
  let possible = true
  let core: readonly Literal[] = []

  const enter = <P extends Propagator>(propagator: P): P => {
    propagators.push(propagator)
    return propagator
  }
  const arcs = enter(arcPropagator(engine, model))
  const conditionalArcs = enter(conditionalArcPropagator(engine, model))
  const monotones = model.monotones.length > 0 ? enter(monotonePropagator(engine, model.monotones)) : undefined
  const clauses = enter(clausePropagator(engine))
  const clauseReason = propagators.length - 1
  const queued = [
    ...model.linears.map((linear) => enter(linearPropagator(engine, linear))),
    ...model.cumulatives.map((cumulative) => enter(cumulativePropagator(engine, cumulative))),
  ]
  const waking = createWaking(queued, value.length)

  const analyser = createAnalyser(engine, clauses, clauseReason, guessing.bump)

  const handOn = (side: number, before: number): boolean => {
    if (!arcs.onRaise(side, before) || !conditionalArcs.onRaise(side, before)) return false
    if (monotones && !monotones.onRaise(side, before)) return false
    if (!clauses.onRaise(side, before)) return false
    waking.wake(side)
    return true
  }

  const propagate = (): boolean => {
    for (;;) {
      while (trail.handedOn < trail.length) {
        const entry = trail.handedOn++
        if (!handOn(trail.side[entry]!, trail.old[entry]!)) return false
      }
      const index = waking.next()
      if (index < 0) return true
      if (!queued[index]!.run()) return false
    }
  }

  const undoTo = (level: number): void => {
    if (levelStarts.length <= level) return
    engine.undoTo(level, guessing.beforeUndo)
    // What waits was woken by raises that are undone now; whatever else rose has been seen before.
    waking.clear()
  }

  const learn = (): boolean => {
    guessing.decay()
    clauses.decay()
    const lesson = analyser.learnFrom(conflict)
    if (!lesson) return false
    undoTo(lesson.backLevel)
    return clauses.learn(lesson)
  }

  /** Back to the assumptions, or further if there is too much to remember: clauses are forgotten only at level 0. */
  const restart = ({ isShort, assumptions }: Branching): void => {
    const isFull = clauses.learnedCount() > learnedLimit
    undoTo(isFull || assumptions.length === 0 ? 0 : 1)
    restarts++
    untilRestart = (isShort ? SHORT_RESTART_UNIT : RESTART_UNIT) * luby(restarts)
  }

  /** Begins level 1. @returns false if one of them is false by then, which is then the conflict, with the core set */
  const assume = (assumptions: readonly Literal[]): boolean => {
    levelStarts.push(trail.length)
    return assumptions.every((assumption) => {
      if (engine.raise(assumption.side, assumption.least, DECISION, 0, 0)) return true
      core = [assumption, ...pairsOf(analyser.decisionsBehind(conflict))]
      return false
    })
  }

  const byActivity = ({ isShort }: Branching): boolean => restarts % 2 === (isShort ? 0 : 1)

  const run = (branching: Branching, limits: Limits): Outcome => {
    if (guessing.begin(branching) && branching.isShort) untilRestart = SHORT_RESTART_UNIT
    undoTo(0)
    const until = conflicts + limits.conflicts
    for (let round = 1; possible; round++) {
      if (!propagate()) {
        conflicts++
        untilRestart--
        const level = analyser.levelOf(conflict)
        if (level === 1 && branching.assumptions.length > 0) {
          core = pairsOf(analyser.decisionsBehind(conflict))
          return 'exhausted'
        }
        if (!learn()) break
        if (conflicts >= until || ((conflicts & 63) === 0 && limits.cancelled())) return 'stopped'
        continue
      }
      if ((round & 1023) === 0 && limits.cancelled()) return 'stopped'
      if (untilRestart <= 0) {
        restart(branching)
        continue
      }
      if (levelStarts.length === 0) {
        if (clauses.learnedCount() > learnedLimit) {
          clauses.forget()
          learnedLimit = Math.floor(learnedLimit * 1.05)
        }
        if (branching.assumptions.length > 0) {
          if (!assume(branching.assumptions)) return 'exhausted'
          continue
        }
      }
      if (!guessing.guess(branching, byActivity(branching))) return 'found'
    }
    possible = false
    core = []
    return 'exhausted'
  }

  for (let side = 0; side < value.length && possible; side++) possible = handOn(side, -FAR)
  for (const clause of model.clauses) possible &&= clauses.add(clause)

  return {
    engine,
    run,
    addFact: ({ side, least }) => {
      undoTo(0)
      possible &&= engine.raise(side, least, ROOT_FACT, 0, 0)
      return possible
    },
    addClause: (literals) => {
      undoTo(0)
      possible &&= propagate() && clauses.add(literals)
      return possible
    },
    conflicts: () => conflicts,
    core: () => core,
  }
}

function pairsOf(flat: readonly number[]): Literal[] {
  return Array.from({ length: flat.length >> 1 }, (_, i) => ({ side: flat[2 * i]!, least: flat[2 * i + 1]! }))
}
