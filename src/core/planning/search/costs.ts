import type { Compiled, Truth } from './scope.ts'
import { setupCosts } from './compileSetups.ts'
import { indexOf, type Indexed } from './indexed.ts'

import { addArc, isFalse, newVariable, type LinearTerm, type Literal } from './lcg/model.ts'
import type { CostTerm, Point } from './problem.ts'
import { origin } from './problem.ts'

const MOST_COST = 2 ** 30 - 1

/**
 * Adds the costs to the model: each level is a variable that is at least the sum of its terms, so its lower bound is
 * what the plan costs once everything else is fixed.
 * @returns by level, its variable
 * @throws RangeError if a level could pass 2^30
 */
export function compileCosts(indexed: Indexed, compiled: Compiled): number[] {
  const { model } = compiled
  return indexed.problem.costs.map(({ name, terms }) => {
    const parts = terms.map((term) => sumOf(indexed, compiled, term))
    const constant = parts.reduce((sum, part) => sum + part.constant, 0)
    const weighed = parts.flatMap((part) => part.terms).filter(({ weight }) => weight > 0)
    if (weighed.length === 1 && weighed[0]!.weight === 1 && constant === 0 && weighed[0]!.side % 2 === 0) {
      return weighed[0]!.side >> 1
    }
    const most = constant + mostTogether(compiled, terms, parts)
    if (most > MOST_COST) throw new RangeError(`costs of level ${name} may reach ${most}, past 2^30`)
    const level = newVariable(model, 0, most)
    model.linears.push({ terms: [...weighed, { side: 2 * level + 1, weight: 1 }], limit: -constant })
    return level
  })
}

/** What the terms may cost together; a task is done in one of its modes only. */
function mostTogether(compiled: Compiled, terms: readonly CostTerm[], parts: readonly Sum[]): number {
  const ofModes = new Map<string, number>()
  let sum = 0
  terms.forEach((term, i) => {
    const most = parts[i]!.terms.reduce((total, { side, weight }) => total + weight * mostOf(compiled, side), 0)
    if (term.kind === 'mode') ofModes.set(term.taskId, Math.max(ofModes.get(term.taskId) ?? 0, most))
    else sum += most
  })
  return [...ofModes.values()].reduce((total, most) => total + most, sum)
}

function mostOf({ model }: Compiled, side: number): number {
  return side % 2 === 0 ? model.upper[side >> 1]! : -model.lower[side >> 1]!
}

/** Weighted sides and a constant, whose least sum is the term's cost. */
type Sum = { readonly terms: readonly LinearTerm[]; readonly constant: number }

function sumOf(indexed: Indexed, compiled: Compiled, term: CostTerm): Sum {
  const { model, originVariable, presence, modeTruth } = compiled
  const { taskOf, problem, horizonMin } = indexed
  const excess = (weight: number): { variable: number; sum: Sum } => {
    const variable = newVariable(model, 0, horizonMin)
    return { variable, sum: { terms: [{ side: 2 * variable, weight }], constant: 0 } }
  }
  switch (term.kind) {
    case 'makespan': {
      const { variable, sum } = excess(term.weight)
      problem.tasks.forEach((_, task) => {
        eachEnd(indexed, compiled, task, (durationMin, condition) =>
          addArc(model, task, durationMin, variable, condition),
        )
      })
      return sum
    }
    case 'tardiness': {
      const task = indexOf(taskOf, term.taskId)
      const { variable, sum } = excess(term.weight)
      const dueMin = term.dueMin - problem.horizon.startMin
      eachEnd(indexed, compiled, task, (durationMin, condition) => {
        addArc(model, task, durationMin - dueMin, variable, condition)
      })
      return sum
    }
    case 'late': {
      const task = indexOf(taskOf, term.taskId)
      const late = newVariable(model, 0, 1)
      eachEnd(indexed, compiled, task, (durationMin, condition) => {
        const onTime = compiled.all([isFalse(late), condition ?? true]) as Literal
        addArc(model, task, durationMin - term.dueMin, originVariable, onTime)
      })
      return { terms: [{ side: 2 * late, weight: term.cost }], constant: 0 }
    }
    case 'left-out': {
      const group = indexed.groups.indexOf(term.group)
      if (group < 0) throw new RangeError(`no task is of group ${term.group}`)
      // A frozen task and a free one of a group agree, so any of them will do.
      const members = indexed.members[group]!
      const truth =
        members.map((task) => presence[task]!).find((of) => typeof of !== 'boolean') ?? presence[members[0]!]!
      return costOf(truth, -term.cost, term.cost)
    }
    case 'mode': {
      const task = indexOf(taskOf, term.taskId)
      const mode = problem.tasks[task]!.modes.findIndex(({ id }) => id === term.modeId)
      if (mode < 0) throw new RangeError(`task ${term.taskId} has no mode ${term.modeId}`)
      return costOf(modeTruth[task]![mode]!, term.cost, 0)
    }
    case 'moved': {
      const task = indexOf(taskOf, term.taskId)
      const { variable, sum } = excess(term.weight)
      const condition = literalOf(presence[task]!)
      if (condition === 'never') return { terms: [], constant: 0 }
      addDistance(compiled, task, term.startMin, variable, condition)
      return sum
    }
    case 'span': {
      const { variable, sum } = excess(term.weight)
      spanArcs(indexed, compiled, term.from, term.to, term.beyondMin, variable)
      return sum
    }
    case 'setups':
      return setupCosts(indexed, compiled, term.kilnId, term.weight)
  }
}

/** `cost` if it is true, plus a constant. A false literal's side counts negatively. */
function costOf(truth: Truth, cost: number, constant: number): Sum {
  if (truth === true) return { terms: [], constant: constant + cost }
  if (truth === false) return { terms: [], constant }
  return cost >= 0
    ? { terms: [{ side: truth.side, weight: cost }], constant }
    : { terms: [{ side: truth.side ^ 1, weight: -cost }], constant }
}

const literalOf = (truth: Truth): Literal | undefined | 'never' =>
  truth === true ? undefined : truth === false ? 'never' : truth

function eachEnd(
  { modes }: Indexed,
  { modeTruth }: Compiled,
  task: number,
  use: (durationMin: number, condition: Literal | undefined) => void,
): void {
  modes[task]!.forEach(({ durationMin }, mode) => {
    const condition = literalOf(modeTruth[task]![mode]!)
    if (condition !== 'never') use(durationMin, condition)
  })
}

/** variable >= |start - startMin|, by way of a variable that stands for the distance the other way. */
function addDistance(
  { model, originVariable }: Compiled,
  task: number,
  startMin: number,
  variable: number,
  condition: Literal | undefined,
): void {
  // start - startMin <= variable: with the origin o fixed at -base, start <= variable + (o + startMin).
  const offset = model.lower[originVariable]! + startMin
  addArc(model, task, -offset, variable, condition)
  // startMin - start <= variable: -start + offset <= variable.
  const arc = { from: 2 * task + 1, weight: offset, to: 2 * variable }
  if (condition) model.conditionalArcs.push({ ...arc, condition })
  else model.arcs.push(arc)
}

/** variable >= to - from - beyond: needs the difference of two variables, a sum of three sides at most 0. */
function spanArcs(
  indexed: Indexed,
  compiled: Compiled,
  from: Point,
  to: Point,
  beyondMin: number,
  variable: number,
): void {
  const { model } = compiled
  for (const start of offsets(indexed, compiled, from)) {
    for (const end of offsets(indexed, compiled, to)) {
      const condition = compiled.all([start.truth, end.truth])
      if (condition === false) continue
      const limit = beyondMin + start.offset - end.offset
      const terms = [
        { side: 2 * end.task, weight: 1 },
        { side: 2 * start.task + 1, weight: 1 },
        { side: 2 * variable + 1, weight: 1 },
      ]
      if (condition !== true) {
        // While the condition is false the sum may be as much more as it can ever be.
        const slack = 2 * indexed.horizonMin + Math.abs(limit)
        model.linears.push({ terms: [...terms, { side: condition.side, weight: slack }], limit: limit + slack })
      } else model.linears.push({ terms, limit })
    }
  }
}

function offsets({ taskOf, modes }: Indexed, { modeTruth, presence }: Compiled, point: Point | typeof origin) {
  if (point === origin) throw new RangeError('a span runs between tasks')
  const task = indexOf(taskOf, point.taskId)
  if (point.at === 'start') return [{ task, offset: 0, truth: presence[task]! }]
  return modes[task]!.map(({ durationMin }, mode) => ({ task, offset: durationMin, truth: modeTruth[task]![mode]! }))
}
