import { withoutIntervals, type Interval } from '../../time.ts'
import type { Compiled, Scope, Truth } from './scope.ts'
import type { Indexed, IndexedMode } from './indexed.ts'
import { addClause, newVariable, not, type CumulativeEntry, type Literal } from './lcg/model.ts'
import { FAR } from './lcg/engine.ts'
import type { StepFunction } from './problem.ts'

/** A span in which so much of a resource is taken by what cannot change. */
type Taken = Interval & { readonly amount: number }

/**
 * Resources as time-tables, calendars as monotone arcs. What fixed tasks take of a resource is not in the time-table
 * one by one: it is summed, and where it leaves a task no room that is a hole in the task's calendar.
 */
export function compileResources(indexed: Indexed, compiled: Compiled, scope: Scope): void {
  const { modes, resources } = indexed
  const { modeTruth } = compiled
  const taken = resources.map((_, resource) => takenOf(indexed, scope, resource))
  modes.forEach((ofTask, task) => {
    if (!isOpen(scope, task)) return
    ofTask.forEach((mode, index) => compileCalendar(indexed, compiled, taken, task, mode, modeTruth[task]![index]!))
  })
  resources.forEach((_, resource) => compileTimeTable(indexed, compiled, scope, taken[resource]!, resource))
}

const isOpen = ({ incumbent }: Scope, task: number): boolean => {
  const freedom = incumbent?.freedom[task] ?? 'free'
  return freedom === 'free' || freedom === 'movable'
}

/** Partly missing capacity and what fixed tasks take, summed: disjoint spans in rising order. */
function takenOf({ modes, resources }: Indexed, { incumbent, window }: Scope, resource: number): Taken[] {
  const changes: [number, number][] = []
  const take = (startMin: number, endMin: number, amount: number) => {
    if (window && !incumbent!.freedom.includes('movable') && (endMin <= window.startMin || startMin >= window.endMin))
      return
    changes.push([startMin, amount], [endMin, -amount])
  }
  for (const { startMin, endMin, amount } of resources[resource]!.missing) take(startMin, endMin, amount)
  incumbent?.freedom.forEach((freedom, task) => {
    if (freedom !== 'fixed') return
    const mode = modes[task]![incumbent.schedule.mode[task]!]
    const demand = mode?.demands.find((one) => one.resource === resource)
    const start = incumbent.schedule.start[task]!
    if (demand && mode!.durationMin > 0) take(start, start + mode!.durationMin, demand.amount)
  })
  changes.sort(([a], [b]) => a - b)
  const spans: Taken[] = []
  let amount = 0
  changes.forEach(([startMin, change], i) => {
    amount += change
    const endMin = changes[i + 1]?.[0] ?? startMin
    if (amount > 0 && endMin > startMin) spans.push({ startMin, endMin, amount })
  })
  return spans
}

/** A calendar is a monotone arc from a start to itself: not before the next minute that is allowed. */
function compileCalendar(
  { resources, horizonMin }: Indexed,
  { model }: Compiled,
  taken: readonly (readonly Taken[])[],
  task: number,
  { durationMin, demands, starts }: IndexedMode,
  truth: Truth,
): void {
  if (truth === false) return
  const full = demands.flatMap(({ resource, amount }) =>
    durationMin === 0 || resources[resource]!.assumption >= 0
      ? []
      : taken[resource]!.filter((span) => span.amount > resources[resource]!.capacity - amount),
  )
  if (starts === undefined && full.length === 0) return
  // Work of d minutes touches a span [a, b) if it starts in [a - d + 1, b).
  const touching = full.map(({ startMin, endMin }) => ({ startMin: startMin - durationMin + 1, endMin }))
  const allowed = withoutIntervals(starts ?? [{ startMin: 0, endMin: horizonMin + 1 }], touching)
  const condition = truth === true ? {} : { condition: truth }
  if (allowed.length === 0) addClause(model, truth === true ? [] : [not(truth)])
  else model.monotones.push({ from: task, to: task, bound: 'at-least', steps: nextAllowed(allowed), ...condition })
}

/** As steps: the first minute, from one on, that is allowed. */
export function nextAllowed(allowed: readonly Interval[]): StepFunction {
  return allowed.flatMap(({ startMin, endMin }, i) => [
    ...(i === 0 ? [{ fromMin: -FAR, valueMin: startMin, slope: 0 as const }] : []),
    { fromMin: startMin, valueMin: startMin, slope: 1 as const },
    { fromMin: endMin, valueMin: allowed[i + 1]?.startMin ?? FAR, slope: 0 as const },
  ])
}

function compileTimeTable(
  { modes, resources }: Indexed,
  { model, modeTruth, assumptions, all }: Compiled,
  scope: Scope,
  taken: readonly Taken[],
  resource: number,
): void {
  const { capacity, assumption } = resources[resource]!
  const inForce: Truth = assumption < 0 ? true : assumptions[assumption]!
  const presenceOf = (truth: Truth): { presence?: Literal } => (typeof truth === 'boolean' ? {} : { presence: truth })
  const entries = modes.flatMap((ofTask, task): CumulativeEntry[] => {
    if (!isOpen(scope, task)) return []
    return ofTask.flatMap(({ durationMin, demands }, mode): CumulativeEntry[] => {
      const demand = demands.find((one) => one.resource === resource)?.amount ?? 0
      if (demand === 0 || durationMin === 0) return []
      const truth = all([modeTruth[task]![mode]!, inForce])
      return truth === false ? [] : [{ start: task, duration: durationMin, demand, ...presenceOf(truth) }]
    })
  })
  const total = entries.reduce((sum, { demand }) => sum + demand, 0)
  const mostTaken = taken.reduce((most, { amount }) => Math.max(most, amount), 0)
  if (entries.length === 0 || total + mostTaken <= capacity) return
  // Where everything is taken the calendars have a hole.
  const blocked = taken
    .filter(({ amount }) => amount < capacity || assumption >= 0)
    .map(({ startMin, endMin, amount }) => ({
      start: newVariable(model, startMin, startMin),
      duration: endMin - startMin,
      demand: amount,
      ...presenceOf(inForce),
    }))
  model.cumulatives.push({ capacity, entries: [...entries, ...blocked] })
}
