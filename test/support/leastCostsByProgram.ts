import type {
  Choice,
  CostTerm,
  Kiln,
  Mode,
  Point,
  Problem,
  StepFunction,
  Task,
} from '../../src/core/planning/search/problem.ts'
import {
  constantly,
  linearProgram,
  minus,
  nothing,
  plus,
  times,
  type LinearProgram,
  type Sum,
} from './linearProgram.ts'

/**
 * The least costs by level, in order, by a general solver for integer programmes; undefined if nothing is possible.
 * One 0-1 variable for each task, mode and minute it may start at; shares nothing with the search but the types.
 * @see Pritsker, Watters, Wolfe (1969), Multiproject scheduling with limited resources: a zero-one programming approach
 */
export function leastCostsByProgram(problem: Problem, presolve = true): readonly number[] | undefined {
  const program = linearProgram(presolve)
  const words = wordsFor(problem, program)
  addLags(problem, program, words)
  addArcs(problem, program, words)
  addResources(problem, program, words)
  for (const kiln of problem.kilns ?? []) addFirings(problem, program, words, kiln)
  addSeats(problem, program, words)
  const costs: number[] = []
  for (const { terms } of problem.costs) {
    const sum = plus(...terms.map((term) => costOf(problem, program, words, term)))
    const least = program.least(sum)
    if (least === undefined) return undefined
    costs.push(least)
    // Costs are whole; half of one leaves the solver's tolerances some room.
    program.demand(sum, least + 0.5)
  }
  return costs
}

/** What can be said of tasks, as sums. Times count from the start of the horizon; of what is not done they are 0. */
type Words = {
  readonly lastMin: number
  readonly starts: readonly Start[]
  readonly isDone: (taskId: string) => Sum
  readonly isIn: (taskId: string, modeId: string) => Sum
  readonly startsAt: (taskId: string, minute: number) => Sum
  readonly timeOf: (point: Point) => Sum
}

/** That the task starts in the mode at the minute. */
type Start = { readonly task: Task; readonly mode: Mode; readonly minute: number; readonly is: Sum }

function wordsFor({ tasks, horizon }: Problem, program: LinearProgram): Words {
  const lastMin = horizon.endMin - horizon.startMin
  const groups = new Map(tasks.flatMap(({ group }) => (group === undefined ? [] : [[group, program.yesOrNo()]])))
  const byTask = new Map<string, Start[]>()
  for (const task of tasks) {
    const starts = task.modes.flatMap((mode) =>
      minutesUpTo(lastMin - mode.durationMin)
        .filter((minute) => mayStart(mode, minute + horizon.startMin))
        .map((minute): Start => ({ task, mode, minute, is: program.yesOrNo() })),
    )
    byTask.set(task.id, starts)
    equal(
      program,
      plus(...starts.map(({ is }) => is)),
      task.group === undefined ? constantly(1) : groups.get(task.group)!,
    )
  }
  const sumOf = (taskId: string, weightOf: (start: Start) => number): Sum =>
    plus(...byTask.get(taskId)!.map((start) => times(weightOf(start), start.is)))
  return {
    lastMin,
    starts: [...byTask.values()].flat(),
    isDone: (taskId) => sumOf(taskId, () => 1),
    isIn: (taskId, modeId) => sumOf(taskId, ({ mode }) => (mode.id === modeId ? 1 : 0)),
    startsAt: (taskId, at) => sumOf(taskId, ({ minute }) => (minute === at ? 1 : 0)),
    timeOf: ({ taskId, at }) => sumOf(taskId, (start) => timeOfStart(start, at)),
  }
}

const minutesUpTo = (last: number): number[] => Array.from({ length: Math.max(0, last + 1) }, (_, minute) => minute)
const timeOfStart = ({ mode, minute }: Start, at: Point['at']) => minute + (at === 'end' ? mode.durationMin : 0)
const mayStart = ({ starts }: Mode, minute: number): boolean =>
  starts?.some(({ startMin, endMin }) => startMin <= minute && minute < endMin) ?? true

function equal(program: LinearProgram, a: Sum, b: Sum): void {
  program.demand(minus(a, b), 0)
  program.demand(minus(b, a), 0)
}

/** sum <= limit if all the conditions (0-1 sums) hold; without, it may be `most`. */
function demandIf(program: LinearProgram, conditions: readonly Sum[], sum: Sum, limit: number, most: number): void {
  const missing = plus(...conditions.map((condition) => minus(constantly(1), condition)))
  program.demand(minus(sum, times(Math.max(0, most - limit), missing)), limit)
}

const chosen = (words: Words, when: readonly Choice[] | undefined): Sum[] =>
  (when ?? []).map(({ taskId, modeId }) => words.isIn(taskId, modeId))

function addLags({ lags, horizon }: Problem, program: LinearProgram, words: Words): void {
  for (const { from, to, minimumMin, maximumMin, when } of lags) {
    const isOrigin = from === 'origin'
    const fromTime = isOrigin ? constantly(-horizon.startMin) : words.timeOf(from)
    const conditions = [
      words.isDone(to.taskId),
      ...(isOrigin ? [] : [words.isDone(from.taskId)]),
      ...chosen(words, when),
    ]
    const lag = minus(words.timeOf(to), fromTime)
    const most = 2 * words.lastMin + Math.abs(horizon.startMin)
    if (minimumMin !== undefined) demandIf(program, conditions, times(-1, lag), -minimumMin, most)
    if (maximumMin !== undefined) demandIf(program, conditions, lag, maximumMin, most)
  }
}

function addArcs({ monotoneArcs, horizon }: Problem, program: LinearProgram, words: Words): void {
  for (const { from, to, bound, steps, when } of monotoneArcs ?? []) {
    const conditions = [words.isDone(from.taskId), words.isDone(to.taskId), ...chosen(words, when)]
    // Beyond the horizon all values are alike: -1 is before any time, one more than the last after any.
    const valueAt = (start: Start) => {
      const value = curveAt(steps, timeOfStart(start, from.at) + horizon.startMin) - horizon.startMin
      return Math.max(-1, Math.min(words.lastMin + 1, value))
    }
    const curve = plus(
      ...words.starts.filter(({ task }) => task.id === from.taskId).map((start) => times(valueAt(start), start.is)),
    )
    const gap = minus(words.timeOf(to), curve)
    demandIf(program, conditions, bound === 'at-least' ? times(-1, gap) : gap, 0, 2 * words.lastMin + 2)
  }
}

function curveAt(steps: StepFunction, minute: number): number {
  let value = -Infinity
  for (const step of steps) if (step.fromMin <= minute) value = step.valueMin + step.slope * (minute - step.fromMin)
  return value
}

function addResources({ resources, horizon }: Problem, program: LinearProgram, words: Words): void {
  for (const { id, capacity, profile } of resources) {
    for (const minute of minutesUpTo(words.lastMin - 1)) {
      const clockMin = minute + horizon.startMin
      const piece = profile?.find(({ startMin, endMin }) => startMin <= clockMin && clockMin < endMin)
      const used = words.starts
        .filter((start) => start.minute <= minute && minute < start.minute + start.mode.durationMin)
        .map(({ mode, is }) =>
          times(
            mode.demands.reduce((sum, one) => sum + (one.resourceId === id ? one.amount : 0), 0),
            is,
          ),
        )
      program.demand(plus(...used), piece?.capacity ?? capacity)
    }
  }
}

const setupOf = ({ setups }: Kiln, from: string | undefined, to: string) =>
  setups?.find(({ fromFamilyId, toFamilyId }) => fromFamilyId === from && toFamilyId === to)

/** Each firing after the one before it and inside the kiln's hours, both with the set-up between them. */
function addFirings(problem: Problem, program: LinearProgram, words: Words, kiln: Kiln): void {
  const familiesOf = (slotId: string) => problem.tasks.find(({ id }) => id === slotId)!.modes.map(({ id }) => id)
  kiln.slotIds.forEach((slotId, at) => {
    const beforeId = kiln.slotIds[at - 1]
    if (beforeId === undefined) {
      addHours(problem, program, words, kiln, slotId, kiln.initialFamilyId, constantly(1))
      return
    }
    program.demand(minus(words.isDone(slotId), words.isDone(beforeId)), 0)
    for (const before of familiesOf(beforeId)) {
      addHours(problem, program, words, kiln, slotId, before, words.isIn(beforeId, before))
      for (const family of familiesOf(slotId)) {
        const conditions = [words.isIn(beforeId, before), words.isIn(slotId, family)]
        const overlap = minus(
          words.timeOf({ taskId: beforeId, at: 'end' }),
          words.timeOf({ taskId: slotId, at: 'start' }),
        )
        demandIf(program, conditions, overlap, -(setupOf(kiln, before, family)?.minutes ?? 0), words.lastMin)
      }
    }
  })
}

function addHours(
  { horizon }: Problem,
  program: LinearProgram,
  words: Words,
  kiln: Kiln,
  slotId: string,
  before: string | undefined,
  isBefore: Sum,
): void {
  for (const { task, mode, minute, is } of words.starts) {
    if (task.id !== slotId) continue
    const beginMin = minute + horizon.startMin - (setupOf(kiln, before, mode.id)?.minutes ?? 0)
    const endMin = minute + horizon.startMin + mode.durationMin
    const isOpen = kiln.hours?.some((hours) => hours.startMin <= beginMin && endMin <= hours.endMin) ?? true
    if (!isOpen) program.demand(plus(is, isBefore), 1)
  }
}

/** Each member that is done in exactly one slot that is used and suits it, from its start on, within the room. */
function addSeats({ kilns, tasks }: Problem, program: LinearProgram, words: Words): void {
  const modesOf = new Map(tasks.map(({ id, modes }) => [id, modes]))
  const seatsOf = new Map<string, Sum[]>()
  for (const { slotIds, room, members } of kilns ?? []) {
    for (const slotId of slotIds) {
      const seated = members.map((member) => ({ ...member, is: program.yesOrNo() }))
      room.forEach((limit, dimension) => {
        program.demand(plus(...seated.map(({ size, is }) => times(size[dimension] ?? 0, is))), limit)
      })
      for (const { taskId, familyIds, is } of seated) {
        seatsOf.set(taskId, [...(seatsOf.get(taskId) ?? []), is])
        program.demand(minus(is, words.isDone(slotId)), 0)
        for (const minute of minutesUpTo(words.lastMin)) {
          program.demand(minus(plus(words.startsAt(taskId, minute), is), words.startsAt(slotId, minute)), 1)
        }
        for (const { id } of modesOf.get(slotId)!) {
          const both = plus(is, words.isIn(slotId, id))
          if (!familyIds.includes(id)) program.demand(both, 1)
          else if (modesOf.get(taskId)!.length > 1) program.demand(minus(both, words.isIn(taskId, id)), 1)
        }
      }
    }
  }
  for (const [taskId, seats] of seatsOf) equal(program, plus(...seats), words.isDone(taskId))
}

function costOf(problem: Problem, program: LinearProgram, words: Words, term: CostTerm): Sum {
  const { horizon, kilns } = problem
  const byStart = (taskId: string, priceOf: (start: Start) => number) =>
    plus(...words.starts.filter(({ task }) => task.id === taskId).map((start) => times(priceOf(start), start.is)))
  switch (term.kind) {
    case 'makespan': {
      const last = program.atLeast0()
      for (const { id } of problem.tasks) program.demand(minus(words.timeOf({ taskId: id, at: 'end' }), last), 0)
      return times(term.weight, last)
    }
    case 'tardiness':
    case 'late':
      return byStart(term.taskId, (start) => {
        const byMin = timeOfStart(start, 'end') + horizon.startMin - term.dueMin
        return term.kind === 'late' ? (byMin > 0 ? term.cost : 0) : term.weight * Math.max(0, byMin)
      })
    case 'left-out': {
      const { id } = problem.tasks.find(({ group }) => group === term.group)!
      return times(term.cost, minus(constantly(1), words.isDone(id)))
    }
    case 'mode':
      return times(term.cost, words.isIn(term.taskId, term.modeId))
    case 'moved':
      return byStart(term.taskId, ({ minute }) => term.weight * Math.abs(minute + horizon.startMin - term.startMin))
    case 'span': {
      const excess = program.atLeast0()
      const conditions = [words.isDone(term.from.taskId), words.isDone(term.to.taskId)]
      const span = minus(minus(words.timeOf(term.to), words.timeOf(term.from)), excess)
      demandIf(program, conditions, span, term.beyondMin, words.lastMin)
      return times(term.weight, excess)
    }
    case 'setups': {
      const kiln = kilns!.find(({ id }) => id === term.kilnId)!
      return times(term.weight, plus(...(kiln.setups ?? []).map((setup) => setupsPaid(program, words, kiln, setup))))
    }
  }
}

/** What one kind of set-up costs wherever it happens. */
function setupsPaid(
  program: LinearProgram,
  words: Words,
  { slotIds, initialFamilyId }: Kiln,
  { fromFamilyId, toFamilyId, cost }: NonNullable<Kiln['setups']>[number],
): Sum {
  const paid = slotIds.map((slotId, at) => {
    const beforeId = slotIds[at - 1]
    if (beforeId === undefined) return fromFamilyId === initialFamilyId ? words.isIn(slotId, toFamilyId) : nothing
    const both = program.atLeast0()
    program.demand(minus(plus(words.isIn(beforeId, fromFamilyId), words.isIn(slotId, toFamilyId)), both), 1)
    return both
  })
  return times(cost, plus(...paid))
}
