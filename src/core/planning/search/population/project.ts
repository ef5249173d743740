import type { Indexed, Link } from '../indexed.ts'

/**
 * A problem of which nothing is open but when each task starts, and nothing asked but to be done soon: one mode each,
 * lags that only hold back, resources that hold the same at all times. Any order of the tasks that suits the lags then
 * is a schedule (see decode.ts). Minutes are counted in `unitMin`, which every duration and lag is a multiple of.
 */
export type Project = {
  readonly taskCount: number
  readonly unitMin: number
  /** What a unit of the whole's length costs. */
  readonly unitCost: number
  /** Units in which everything can surely be done. */
  readonly horizon: number
  /** By task. */
  readonly duration: Int32Array
  /** By task: the earliest start. */
  readonly release: Int32Array
  readonly capacity: Int32Array
  /** [task][resource], row-major. */
  readonly demand: Int32Array
  /** Each a wait of at least the duration of its first task. */
  readonly lags: readonly ProjectLag[]
  /** Every task behind those that hold it back. */
  readonly topological: Int32Array
}

/** start of `to` >= start of `from` + `weight`. */
export type ProjectLag = { readonly from: number; readonly weight: number; readonly to: number }

/** Beyond so many units a table of what is taken in each costs more than it saves. */
const MOST_UNITS = 20_000

/** @returns undefined if the problem is not of this kind */
export function projectOf(indexed: Indexed): Project | undefined {
  const { taskCount, problem, modes, links, resources } = indexed
  if (taskCount === 0 || !isPlain(indexed)) return undefined
  const originMin = -problem.horizon.startMin
  const unitMin = greatestUnit([
    ...modes.map(([mode]) => mode!.durationMin),
    ...links.map(({ from, weight }) => (from === taskCount ? originMin + weight : weight)),
  ])
  const duration = Int32Array.from(modes, ([mode]) => mode!.durationMin / unitMin)
  const release = new Int32Array(taskCount)
  for (const { from, weight, to } of links) {
    if (from === taskCount) release[to] = Math.max(release[to]!, (originMin + weight) / unitMin)
  }
  const lags = links
    .filter(({ from }) => from < taskCount)
    .map(({ from, weight, to }) => ({ from, weight: weight / unitMin, to }))
  const horizon = Math.floor(indexed.horizonMin / unitMin)
  if (horizon > MOST_UNITS || horizon < surelyEnough(duration, release, lags)) return undefined
  const topological = topologicalOrder(taskCount, lags)
  if (topological.length < taskCount) return undefined
  const demand = new Int32Array(taskCount * resources.length)
  modes.forEach(([mode], task) => {
    for (const { resource, amount } of mode!.demands) demand[task * resources.length + resource] = amount
  })
  const capacity = Int32Array.from(resources, (resource) => resource.capacity)
  if (demand.some((amount, at) => amount > capacity[at % resources.length]!)) return undefined
  const [term] = problem.costs[0]!.terms
  const unitCost = term!.kind === 'makespan' ? term!.weight * unitMin : 0
  return { taskCount, unitMin, unitCost, horizon, duration, release, capacity, demand, lags, topological }
}

function isPlain(indexed: Indexed): boolean {
  const { problem, groupOf, modes, links, curves, resources, kilns } = indexed
  const [level, ...others] = problem.costs
  return (
    kilns.length === 0 &&
    curves.length === 0 &&
    others.length === 0 &&
    level!.terms.length === 1 &&
    level!.terms[0]!.kind === 'makespan' &&
    groupOf.every((group) => group < 0) &&
    modes.every((ofTask) => ofTask.length === 1 && ofTask[0]!.starts === undefined) &&
    links.every((link) => isPrecedence(link, indexed)) &&
    resources.every(({ missing, assumption }) => missing.length === 0 && assumption < 0)
  )
}

function isPrecedence({ from, weight, to, conditions, assumption }: Link, { taskCount, modes }: Indexed): boolean {
  if (to >= taskCount || conditions.length > 0 || assumption >= 0) return false
  return from === taskCount || weight >= modes[from]![0]!.durationMin
}

function greatestUnit(minutes: readonly number[]): number {
  let unit = 0
  for (const one of minutes) {
    let rest = Math.abs(one)
    while (rest !== 0) [unit, rest] = [rest, unit % rest]
  }
  return Math.max(1, unit)
}

/** One after another, every release and lag waited out. */
function surelyEnough(duration: Int32Array, release: Int32Array, lags: readonly ProjectLag[]): number {
  const longest = Int32Array.from(duration, (own, task) =>
    lags.reduce((most, { from, weight }) => (from === task ? Math.max(most, weight) : most), own),
  )
  return longest.reduce((sum, one) => sum + one, 0) + release.reduce((most, one) => Math.max(most, one), 0)
}

/** @see Kahn (1962); tasks on a cycle and behind one are missing */
function topologicalOrder(taskCount: number, lags: readonly ProjectLag[]): Int32Array {
  const waitingFor = new Int32Array(taskCount)
  for (const { to } of lags) waitingFor[to]!++
  const ready = Array.from(waitingFor.keys()).filter((task) => waitingFor[task] === 0)
  for (const task of ready) {
    for (const { from, to } of lags) if (from === task && --waitingFor[to]! === 0) ready.push(to)
  }
  return Int32Array.from(ready)
}
