import { indexOf, type Indexed } from './indexed.ts'
import type { CostTerm, Point } from './problem.ts'
import { LEFT_OUT, type Schedule } from './schedule.ts'

/** What a schedule costs, by level. */
export function evaluate(indexed: Indexed, schedule: Omit<Schedule, 'costs'>): number[] {
  return indexed.problem.costs.map(({ terms }) => terms.reduce((sum, term) => sum + costOf(indexed, schedule, term), 0))
}

function costOf(indexed: Indexed, { start, mode }: Omit<Schedule, 'costs'>, term: CostTerm): number {
  const { modes, taskOf, problem } = indexed
  const baseMin = problem.horizon.startMin
  const isDone = (task: number) => mode[task] !== LEFT_OUT
  const endOf = (task: number) => start[task]! + modes[task]![mode[task]!]!.durationMin
  const timeOf = (point: Point) => {
    const task = indexOf(taskOf, point.taskId)
    return isDone(task) ? (point.at === 'start' ? start[task]! : endOf(task)) : undefined
  }
  switch (term.kind) {
    case 'makespan': {
      let last = 0
      for (let task = 0; task < indexed.taskCount; task++) if (isDone(task)) last = Math.max(last, endOf(task))
      return term.weight * last
    }
    case 'tardiness':
    case 'late': {
      const task = indexOf(taskOf, term.taskId)
      const byMin = isDone(task) ? Math.max(0, endOf(task) + baseMin - term.dueMin) : 0
      return term.kind === 'late' ? (byMin > 0 ? term.cost : 0) : term.weight * byMin
    }
    case 'left-out':
      return isDone(indexed.members[indexed.groups.indexOf(term.group)]![0]!) ? 0 : term.cost
    case 'mode': {
      const task = indexOf(taskOf, term.taskId)
      return problem.tasks[task]!.modes[mode[task]!]?.id === term.modeId ? term.cost : 0
    }
    case 'moved': {
      const task = indexOf(taskOf, term.taskId)
      return isDone(task) ? term.weight * Math.abs(start[task]! + baseMin - term.startMin) : 0
    }
    case 'span': {
      const fromMin = timeOf(term.from)
      const toMin = timeOf(term.to)
      return fromMin === undefined || toMin === undefined
        ? 0
        : term.weight * Math.max(0, toMin - fromMin - term.beyondMin)
    }
    case 'setups': {
      const at = (problem.kilns ?? []).findIndex(({ id }) => id === term.kilnId)
      let family = problem.kilns?.[at]?.initialFamilyId
      let cost = 0
      for (const slot of indexed.kilns[at]?.slots ?? []) {
        if (!isDone(slot)) continue
        const next = problem.tasks[slot]!.modes[mode[slot]!]!.id
        cost += indexed.kilns[at]!.families.setupOf(family, next)?.cost ?? 0
        family = next
      }
      return term.weight * cost
    }
  }
}
