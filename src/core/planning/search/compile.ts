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
import type { Pairs } from './pairs.ts'
import { LEFT_OUT, type Schedule } from './schedule.ts'

/** What is known beforehand, or a literal that decides it. */
export type Truth = Literal | boolean

/** A problem, or the part of it that a neighbourhood leaves free, as a model. The start of task t is variable t. */
export type Compiled = {
  readonly model: Model
  /** Variable that stands for minute 0 of the clock. */
  readonly originVariable: number
  /** By task, by mode. */
  readonly modeTruth: readonly (readonly Truth[])[]
  /** By task. */
  readonly presence: readonly Truth[]
  /** By assumption: the literal that puts it in force. */
  readonly assumptions: readonly Literal[]
  /** 0-1 variables to decide before starts. */
  readonly choices: Literal[]
  /** Literal that holds whenever all of them do; true for none. */
  readonly all: (truths: readonly Truth[]) => Truth
}

export type Scope = {
  /** Tasks outside keep mode and presence of this schedule. */
  readonly frozen?: { readonly schedule: Schedule; readonly isFree: (task: number) => boolean }
  readonly pairs?: Pairs
  /** Orders of frozen tasks to be kept. */
  readonly precedences?: readonly { readonly before: number; readonly after: number }[]
}

export function compile(indexed: Indexed, scope: Scope = {}): Compiled {
  const model = emptyModel()
  const { taskCount, horizonMin, problem } = indexed
  for (let task = 0; task < taskCount; task++) {
    newVariable(model, 0, horizonMin - Math.min(...indexed.modes[task]!.map(({ durationMin }) => durationMin)))
  }
  const originVariable = newVariable(model, -problem.horizon.startMin, -problem.horizon.startMin)
  const assumptions = (problem.assumptions ?? []).map(() => isTrue(newVariable(model, 0, 1)))
  const { presence, modeTruth, choices } = compileModes(indexed, model, scope)
  const all = rememberedConjunction(model)
  const compiled: Compiled = { model, originVariable, modeTruth, presence, assumptions, choices, all }

  for (const link of indexed.links) addLag(compiled, link)
  for (const { from, to, bound, steps, conditions, assumption } of indexed.curves) {
    const condition = all(conditionsOf(compiled, from, to, conditions, assumption))
    if (condition === false) continue
    model.monotones.push({ from, to, bound, steps, ...(condition === true ? {} : { condition }) })
  }
  compileCalendars(indexed, compiled)
  compileResources(indexed, compiled)
  compilePairs(indexed, compiled, scope)
  return compiled
}

function compileModes(
  indexed: Indexed,
  model: Model,
  { frozen }: Scope,
): Pick<Compiled, 'presence' | 'modeTruth' | 'choices'> {
  const choices: Literal[] = []
  const groupTruth: Truth[] = indexed.groups.map(() => true)
  const groupSeen = new Set<number>()
  const presence = indexed.groupOf.map((group, task): Truth => {
    if (frozen && !frozen.isFree(task)) return frozen.schedule.mode[task] !== LEFT_OUT
    if (group < 0) return true
    if (!groupSeen.has(group)) {
      groupSeen.add(group)
      groupTruth[group] = isTrue(newVariable(model, 0, 1))
      choices.push(groupTruth[group] as Literal)
    }
    return groupTruth[group]!
  })
  const modeTruth = indexed.modes.map((modes, task): Truth[] => {
    if (presence[task] === false) return modes.map(() => false)
    if (frozen && !frozen.isFree(task)) return modes.map((_, mode) => mode === frozen.schedule.mode[task])
    if (modes.length === 1) return [presence[task]!]
    const taken = modes.map(() => isTrue(newVariable(model, 0, 1)))
    exactlyOne(model, taken, presence[task] as Truth)
    choices.push(...taken)
    return taken
  })
  return { presence, modeTruth, choices }
}

/** One of them if `when` holds, else none. */
function exactlyOne(model: Model, literals: readonly Literal[], when: Truth): void {
  addClause(model, when === true ? literals : [not(when as Literal), ...literals])
  if (when !== true) for (const literal of literals) addClause(model, [not(literal), when as Literal])
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

/** A calendar is a monotone arc from a start to itself: not before the next minute that is allowed. */
function compileCalendars({ modes }: Indexed, { model, modeTruth }: Compiled): void {
  modes.forEach((ofTask, task) => {
    ofTask.forEach(({ starts }, mode) => {
      const truth = modeTruth[task]![mode]!
      if (starts === undefined || truth === false) return
      const steps = starts.flatMap(({ startMin, endMin }, i) => [
        ...(i === 0 ? [{ fromMin: -0x3ffffff, valueMin: startMin, slope: 0 as const }] : []),
        { fromMin: startMin, valueMin: startMin, slope: 1 as const },
        { fromMin: endMin, valueMin: starts[i + 1]?.startMin ?? 0x3fffffff, slope: 0 as const },
      ])
      if (steps.length === 0) addClause(model, truth === true ? [] : [not(truth)])
      else
        model.monotones.push({
          from: task,
          to: task,
          bound: 'at-least',
          steps,
          ...(truth === true ? {} : { condition: truth }),
        })
    })
  })
}

function compileResources({ modes, resources }: Indexed, compiled: Compiled): void {
  const { model, modeTruth, assumptions, all } = compiled
  resources.forEach(({ capacity, missing, assumption }, resource) => {
    const inForce: Truth = assumption < 0 ? true : assumptions[assumption]!
    const entries = modes.flatMap((ofTask, task) =>
      ofTask.flatMap(({ durationMin, demands }, mode) => {
        const amount = demands.find((demand) => demand.resource === resource)?.amount ?? 0
        const truth = all([modeTruth[task]![mode]!, inForce])
        if (amount === 0 || durationMin === 0 || truth === false) return []
        return [{ start: task, duration: durationMin, demand: amount, ...(truth === true ? {} : { presence: truth }) }]
      }),
    )
    if (entries.length === 0) return
    // Closed hours are in the calendars, so only partly missing capacity takes room in the time-table.
    const blocked = missing
      .filter(({ amount }) => amount < capacity || assumption >= 0)
      .map(({ startMin, endMin, amount }) => ({
        start: newVariable(model, startMin, startMin),
        duration: endMin - startMin,
        demand: amount,
        ...(inForce === true ? {} : { presence: inForce as Literal }),
      }))
    model.cumulatives.push({ capacity, entries: [...entries, ...blocked] })
  })
}

/** The order of two tasks that cannot overlap is one 0-1 variable: true if `a` comes first. */
function compilePairs({ modes }: Indexed, { model, modeTruth }: Compiled, { pairs, precedences }: Scope): void {
  const durationOf = (task: number) => {
    const mode = modeTruth[task]!.indexOf(true)
    return modes[task]![Math.max(mode, 0)]!.durationMin
  }
  for (const { before, after } of [...(pairs?.forced ?? []), ...(precedences ?? [])]) {
    addArc(model, before, durationOf(before), after)
  }
  for (const { a, b } of pairs?.open ?? []) {
    const aFirst = newVariable(model, 0, 1)
    addArc(model, a, durationOf(a), b, isTrue(aFirst))
    addArc(model, b, durationOf(b), a, isFalse(aFirst))
  }
}
