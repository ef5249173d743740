import type { Indexed, IndexedKiln } from '../indexed.ts'
import type { CostTerm } from '../problem.ts'
import type { Schedule } from '../schedule.ts'
import { spansToStart, type Spans } from './spans.ts'
import { looseMembers, type Loose, type Weights } from './loose.ts'

/**
 * What may be rearranged while the rest of a schedule stays: which member is fired with which others, in which kiln
 * and order. Costs of all levels are weighed into one number.
 */
export type Floor = {
  readonly kilns: readonly FloorKiln[]
  readonly members: readonly Loose[]
}

/** A kiln whose slots are alike, so that a firing is the same in any of them. */
export type FloorKiln = {
  readonly slots: readonly number[]
  readonly room: readonly number[]
  /** By mode of its slots. */
  readonly durationMin: readonly number[]
  readonly modeCost: readonly number[]
  readonly classOf: readonly number[]
  readonly initialClass: number
  /** By class before (-1 for none) and class after. */
  readonly setupMin: (from: number, to: number) => number
  readonly setupCost: (from: number, to: number) => number
  /** When a firing in the mode may start after one of that class. */
  readonly starts: (mode: number, classBefore: number) => Spans
}

/** @returns undefined if there is nothing to rearrange */
export function floorOf(indexed: Indexed, schedule: Schedule, weights: Weights): Floor | undefined {
  const open = indexed.kilns.flatMap((kiln, index) => (areAlike(indexed, kiln) ? [{ kiln, index }] : []))
  if (open.length === 0) return undefined
  const members = looseMembers(
    indexed,
    open.map(({ kiln }) => kiln),
    schedule,
    weights,
  )
  if (members.length === 0) return undefined
  return { kilns: open.map(({ kiln, index }) => floorKiln(indexed, kiln, index, weights)), members }
}

/** Each may be left out by itself, nothing is tied to any, and they cost and last the same. */
function areAlike(indexed: Indexed, { slots }: IndexedKiln): boolean {
  const { groupOf, members, modes, links, curves, problem } = indexed
  const own = new Set(slots)
  const isTied = links.some(({ from, to, conditions }) => [from, to, ...conditions.map(({ task }) => task)].some(isOwn))
  const isCurved = curves.some(({ from, to, conditions }) =>
    [from, to, ...conditions.map(({ task }) => task)].some(isOwn),
  )
  if (isTied || isCurved || slots.length === 0) return false
  const costs = costsByTask(indexed)
  const described = slots.map((slot) => {
    const terms = costs.get(slot) ?? []
    if (terms.some(({ term }) => term.kind !== 'mode')) return undefined
    if (groupOf[slot]! < 0 || members[groupOf[slot]!]!.length > 1) return undefined
    if (modes[slot]!.some(({ demands }) => demands.length > 0)) return undefined
    const priced = terms.map(({ term, level }) => (term.kind === 'mode' ? [level, term.modeId, term.cost] : []))
    return JSON.stringify([problem.tasks[slot]!.modes.map(({ id }) => id), modes[slot], priced])
  })
  return described[0] !== undefined && described.every((one) => one === described[0])

  function isOwn(task: number): boolean {
    return own.has(task)
  }
}

type Priced = { readonly term: CostTerm; readonly level: number }

/** The terms that name a task (a group by its tasks); what counts the whole or a kiln is not among them. */
function costsByTask({ problem, taskOf, groups, members }: Indexed): Map<number, Priced[]> {
  const byTask = new Map<number, Priced[]>()
  problem.costs.forEach(({ terms }, level) => {
    for (const term of terms) {
      for (const task of tasksOf(term)) byTask.set(task, [...(byTask.get(task) ?? []), { term, level }])
    }
  })
  return byTask

  function tasksOf(term: CostTerm): readonly number[] {
    switch (term.kind) {
      case 'makespan':
      case 'setups':
        return []
      case 'left-out':
        return members[groups.indexOf(term.group)] ?? []
      case 'span':
        return [taskOf.get(term.from.taskId)!, taskOf.get(term.to.taskId)!]
      default:
        return [taskOf.get(term.taskId)!]
    }
  }
}

function floorKiln(indexed: Indexed, kiln: IndexedKiln, index: number, weights: Weights): FloorKiln {
  const { problem, modes, horizonMin } = indexed
  const { families, slots, hours } = kiln
  const { id, initialFamilyId } = problem.kilns![index]!
  const first = problem.tasks[slots[0]!]!
  const modeCost = first.modes.map(() => 0)
  let setupWeight = 0
  problem.costs.forEach(({ terms }, level) => {
    for (const term of terms) {
      if (term.kind === 'setups' && term.kilnId === id) setupWeight += term.weight * weights[level]!
      if (term.kind !== 'mode' || term.taskId !== first.id) continue
      modeCost[first.modes.findIndex((mode) => mode.id === term.modeId)]! += term.cost * weights[level]!
    }
  })
  const count = families.classCount
  const minutes = Array.from({ length: count * count }, (_, at) => setupAt(at)?.minutes ?? 0)
  const costs = Array.from({ length: count * count }, (_, at) => (setupAt(at)?.cost ?? 0) * setupWeight)
  const classOf = first.modes.map((mode) => families.classOf(mode.id))
  const setupMin = (from: number, to: number) => (from < 0 ? 0 : minutes[from * count + to]!)
  const known = new Map<number, Spans>()
  return {
    slots,
    room: kiln.room,
    durationMin: modes[slots[0]!]!.map(({ durationMin }) => durationMin),
    modeCost,
    classOf,
    initialClass: initialFamilyId === undefined ? -1 : families.classOf(initialFamilyId),
    setupMin,
    setupCost: (from, to) => (from < 0 ? 0 : costs[from * count + to]!),
    starts: (mode, classBefore) => {
      const key = mode * (count + 1) + classBefore + 1
      let spans = known.get(key)
      if (!spans) {
        const { durationMin, starts } = modes[slots[0]!]![mode]!
        spans = spansToStart(durationMin, setupMin(classBefore, classOf[mode]!), starts, hours, horizonMin)
        known.set(key, spans)
      }
      return spans
    },
  }

  function setupAt(at: number) {
    return families.setupBetween(Math.floor(at / count), at % count)
  }
}
