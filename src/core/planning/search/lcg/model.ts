import type { StepFunction } from '../problem.ts'

/** What the engine is to solve: variables with bounds, and constraints over their sides (see engine.ts). */
export type Model = {
  readonly lower: number[]
  readonly upper: number[]
  readonly arcs: Arc[]
  readonly conditionalArcs: ConditionalArc[]
  readonly monotones: Monotone[]
  readonly cumulatives: Cumulative[]
  readonly linears: Linear[]
  /** Each flat: side, least, side, least ...; one of them holds. */
  readonly clauses: (readonly number[])[]
}

/** "side >= least". A 0-1 variable b is true as {2b, 1} and false as {2b + 1, 0}. */
export type Literal = { readonly side: number; readonly least: number }

/** value of `to` >= value of `from` + `weight`. */
export type Arc = { readonly from: number; readonly weight: number; readonly to: number }
export type ConditionalArc = Arc & { readonly condition: Literal }

/** x_to >= f(x_from), or x_to <= f(x_from), f never falling; under a condition if there is one. Variables. */
export type Monotone = {
  readonly from: number
  readonly to: number
  readonly bound: 'at-least' | 'at-most'
  readonly steps: StepFunction
  readonly condition?: Literal
}

/** At every minute the demands of the tasks under way sum to `capacity` at most. */
export type Cumulative = { readonly capacity: number; readonly entries: readonly CumulativeEntry[] }

export type CumulativeEntry = {
  /** Variable. */
  readonly start: number
  /** > 0 */
  readonly duration: number
  /** > 0 */
  readonly demand: number
  /** Counts only while this holds. */
  readonly presence?: Literal
}

/** sum of weight * value of side <= limit, every weight > 0. */
export type Linear = { readonly terms: readonly LinearTerm[]; readonly limit: number }
export type LinearTerm = { readonly side: number; readonly weight: number }

export function emptyModel(): Model {
  return {
    lower: [],
    upper: [],
    arcs: [],
    conditionalArcs: [],
    monotones: [],
    cumulatives: [],
    linears: [],
    clauses: [],
  }
}

/** How much there is to make and to propagate: variables, arcs of every kind, entries, terms. */
export function sizeOf({ lower, arcs, conditionalArcs, monotones, cumulatives, linears, clauses }: Model): number {
  const entries = cumulatives.reduce((sum, cumulative) => sum + cumulative.entries.length, 0)
  const terms = linears.reduce((sum, linear) => sum + linear.terms.length, 0)
  return lower.length + arcs.length + conditionalArcs.length + monotones.length + entries + terms + clauses.length
}

export function newVariable(model: Model, lower: number, upper: number): number {
  model.upper.push(upper)
  return model.lower.push(lower) - 1
}

export const isTrue = (variable: number): Literal => ({ side: 2 * variable, least: 1 })
export const isFalse = (variable: number): Literal => ({ side: 2 * variable + 1, least: 0 })
export const not = ({ side, least }: Literal): Literal => ({ side: side ^ 1, least: 1 - least })

/** to >= from + weight, for variables; under a condition if there is one. */
export function addArc(model: Model, from: number, weight: number, to: number, condition?: Literal): void {
  const arc = { from: 2 * from, weight, to: 2 * to }
  if (condition) model.conditionalArcs.push({ ...arc, condition })
  else model.arcs.push(arc)
}

export function addClause(model: Model, literals: readonly Literal[]): void {
  model.clauses.push(literals.flatMap(({ side, least }) => [side, least]))
}

/** A literal that is forced when all of them hold (it may also be true without). */
export function conjunction(model: Model, literals: readonly Literal[]): Literal | undefined {
  if (literals.length <= 1) return literals[0]
  const all = isTrue(newVariable(model, 0, 1))
  addClause(model, [...literals.map(not), all])
  return all
}
