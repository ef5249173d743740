import type { Indexed, Link, ModeChoice } from './indexed.ts'
import {
  addArc,
  addClause,
  conjunction,
  emptyModel,
  isFalse,
  isTrue,
  newVariable,
  not,
  type Literal,
  type Model,
} from './lcg/model.ts'
import { compileKilns } from './compileKilns.ts'
import { compileResources } from './compileResources.ts'
import type { Compiled, Freedom, Scope, Truth } from './scope.ts'
import { LEFT_OUT } from './schedule.ts'

export function compile(indexed: Indexed, scope: Scope = {}): Compiled {
  const model = emptyModel()
  const { taskCount, problem } = indexed
  const freedomOf = (task: number): Freedom => scope.incumbent?.freedom[task] ?? 'free'
  for (let task = 0; task < taskCount; task++) newStart(indexed, model, scope, task, freedomOf(task))
  const originVariable = newVariable(model, -problem.horizon.startMin, -problem.horizon.startMin)
  const assumptions = (problem.assumptions ?? []).map(() => isTrue(newVariable(model, 0, 1)))
  const { presence, modeTruth, choices } = compileModes(indexed, model, scope)
  const all = rememberedConjunction(model)
  const compiled: Compiled = { model, originVariable, modeTruth, presence, assumptions, choices, all, seats: [] }

  const isSettled = (node: number): boolean =>
    node === taskCount || freedomOf(node) === 'fixed' || freedomOf(node) === 'ignored'
  for (const link of indexed.links) if (!isSettled(link.from) || !isSettled(link.to)) addLag(compiled, link)
  for (const { from, to, bound, steps, conditions, assumption } of indexed.curves) {
    if (isSettled(from) && isSettled(to)) continue
    const condition = all(conditionsOf(compiled, from, to, conditions, assumption))
    if (condition === false) continue
    model.monotones.push({ from, to, bound, steps, ...(condition === true ? {} : { condition }) })
  }
  compileHorizon(indexed, compiled)
  compileResources(indexed, compiled, scope)
  compilePairs(indexed, compiled, scope)
  compiled.seats.push(...compileKilns(indexed, compiled, scope))
  return compiled
}

function newStart({ modes, horizonMin }: Indexed, model: Model, scope: Scope, task: number, freedom: Freedom): void {
  const shortest = Math.min(...modes[task]!.map(({ durationMin }) => durationMin))
  const start = scope.incumbent?.schedule.start[task] ?? 0
  if (freedom === 'fixed') newVariable(model, start, start)
  else if (freedom === 'ignored') newVariable(model, 0, 0)
  else
    newVariable(
      model,
      Math.max(0, scope.window?.startMin ?? 0),
      Math.min(horizonMin, scope.window?.endMin ?? horizonMin) - shortest,
    )
}

function compileModes(
  indexed: Indexed,
  model: Model,
  { incumbent }: Scope,
): Pick<Compiled, 'presence' | 'modeTruth' | 'choices'> {
  const choices: Literal[] = []
  const groupTruth: (Truth | undefined)[] = []
  const keptMode = (task: number): number | undefined => {
    const freedom = incumbent?.freedom[task] ?? 'free'
    if (freedom === 'free') return undefined
    return freedom === 'ignored' ? LEFT_OUT : incumbent!.schedule.mode[task]!
  }
  // A group of which some task is kept is kept in or out as a whole.
  indexed.groupOf.forEach((group, task) => {
    const kept = keptMode(task)
    if (group >= 0 && kept !== undefined) groupTruth[group] = kept !== LEFT_OUT
  })
  const presence = indexed.groupOf.map((group, task): Truth => {
    const kept = keptMode(task)
    if (kept !== undefined) return kept !== LEFT_OUT
    if (group < 0) return true
    const known = groupTruth[group]
    if (known !== undefined) return known
    const isIn = isTrue(newVariable(model, 0, 1))
    groupTruth[group] = isIn
    choices.push(isIn)
    return isIn
  })
  const modeTruth = indexed.modes.map((modes, task): Truth[] => {
    const kept = keptMode(task)
    if (kept !== undefined) return modes.map((_, mode) => mode === kept)
    if (presence[task] === false) return modes.map(() => false)
    if (modes.length === 1) return [presence[task]!]
    const taken = modes.map(() => isTrue(newVariable(model, 0, 1)))
    exactlyOne(model, taken, presence[task]!)
    choices.push(...taken)
    return taken
  })
  return { presence, modeTruth, choices }
}

/** One of them if `when` holds, else none. */
function exactlyOne(model: Model, literals: readonly Literal[], when: Truth): void {
  if (when === false) return
  addClause(model, when === true ? literals : [not(when), ...literals])
  if (when !== true) for (const literal of literals) addClause(model, [not(literal), when])
  model.linears.push({ terms: literals.map(({ side }) => ({ side, weight: 1 })), limit: 1 })
}

/** The same set of conditions is one literal, however many lags hang on it. */
function rememberedConjunction(model: Model): Compiled['all'] {
  const known = new Map<string, Literal>()
  return (truths) => {
    if (truths.includes(false)) return false
    const distinct = new Map<string, Literal>()
    for (const truth of truths) if (typeof truth !== 'boolean') distinct.set(`${truth.side}>=${truth.least}`, truth)
    if (distinct.size === 0) return true
    const key = [...distinct.keys()].toSorted().join()
    const literal = known.get(key) ?? conjunction(model, [...distinct.values()])!
    known.set(key, literal)
    return literal
  }
}

export function conditionsOf(
  { presence, modeTruth, assumptions }: Compiled,
  from: number,
  to: number,
  conditions: readonly ModeChoice[],
  assumption: number,
): Truth[] {
  return [
    presence[from] ?? true,
    presence[to] ?? true,
    ...conditions.map(({ task, mode }) => modeTruth[task]![mode]!),
    ...(assumption < 0 ? [] : [assumptions[assumption]!]),
  ]
}

function addLag(compiled: Compiled, { from, weight, to, conditions, assumption }: Link): void {
  const condition = compiled.all(conditionsOf(compiled, from, to, conditions, assumption))
  if (condition === false) return
  if (from === to) {
    // A lag from a task to itself is a question of its duration alone.
    if (weight > 0) addClause(compiled.model, condition === true ? [] : [not(condition)])
    return
  }
  addArc(compiled.model, from, weight, to, condition === true ? undefined : condition)
}

/** A start's bounds allow its shortest mode; a longer one must end inside the horizon too. */
function compileHorizon({ modes, horizonMin, problem }: Indexed, { model, modeTruth, originVariable }: Compiled): void {
  modes.forEach((ofTask, task) => {
    const shortest = Math.min(...ofTask.map(({ durationMin }) => durationMin))
    ofTask.forEach(({ durationMin }, mode) => {
      const truth = modeTruth[task]![mode]!
      if (durationMin === shortest || truth === false) return
      // start + duration <= horizon, said from the origin, which lies `startMin` before the horizon's start.
      addArc(
        model,
        task,
        durationMin - horizonMin - problem.horizon.startMin,
        originVariable,
        truth === true ? undefined : truth,
      )
    })
  })
}

/**
 * The order of two tasks that cannot overlap is one 0-1 variable: true if `a` comes first. None is needed where the
 * bounds of the starts leave one order only.
 */
function compilePairs({ modes }: Indexed, { model, modeTruth }: Compiled, { pairs, precedences }: Scope): void {
  const { lower, upper } = model
  const durationOf = (task: number) => {
    const mode = modeTruth[task]!.indexOf(true)
    return modes[task]![Math.max(mode, 0)]!.durationMin
  }
  const precede = (before: number, after: number): void => {
    const duration = durationOf(before)
    if (upper[before]! + duration > lower[after]!) addArc(model, before, duration, after)
  }
  const canPrecede = (before: number, after: number): boolean => lower[before]! + durationOf(before) <= upper[after]!

  for (const { before, after } of [...(pairs?.forced ?? []), ...(precedences ?? [])]) precede(before, after)
  for (const { a, b } of pairs?.open ?? []) {
    if (!canPrecede(a, b)) precede(b, a)
    else if (!canPrecede(b, a)) precede(a, b)
    else {
      const aFirst = newVariable(model, 0, 1)
      addArc(model, a, durationOf(a), b, isTrue(aFirst))
      addArc(model, b, durationOf(b), a, isFalse(aFirst))
    }
  }
}
