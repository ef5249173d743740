import type { Rng } from '../../../../rng.ts'
import type { Neighbourhood, View } from '../neighbourhood.ts'

/** Tasks that could not start earlier because of each other, from one that ends last (or a late one) backwards. */
export const criticalBlock: Neighbourhood = {
  name: 'critical block',
  tasks: (view, size, rng) => {
    const { placed, schedule, durationOf, endOf } = view
    const open = startingPoints(view, rng)
    const seen = new Set(open)
    const block: number[] = []
    while (open.length > 0 && block.length < size) {
      const [task] = open.splice(rng.int(open.length), 1)
      if (durationOf(task!) > 0) block.push(task!)
      const start = schedule.start[task!]!
      for (const before of placed) {
        // Two minutes of slack let nearly tight predecessors in.
        if (seen.has(before) || endOf(before) > start || endOf(before) < start - 2) continue
        seen.add(before)
        open.push(before)
      }
    }
    return block
  },
}

function startingPoints({ placed, endOf, indexed }: View, rng: Rng): number[] {
  const late = lateTasks(
    indexed.problem.costs.flatMap(({ terms }) => terms),
    placed,
    indexed.taskOf,
    endOf,
    indexed.problem.horizon.startMin,
  )
  if (late.length > 0) return [late[rng.int(late.length)]!]
  const last = placed.reduce((latest, task) => Math.max(latest, endOf(task)), 0)
  return placed.filter((task) => endOf(task) === last)
}

function lateTasks(
  terms: readonly View['indexed']['problem']['costs'][number]['terms'][number][],
  placed: readonly number[],
  taskOf: ReadonlyMap<string, number>,
  endOf: (task: number) => number,
  baseMin: number,
): number[] {
  const done = new Set(placed)
  return terms.flatMap((term) => {
    if (term.kind !== 'tardiness' && term.kind !== 'late') return []
    const task = taskOf.get(term.taskId)!
    return done.has(task) && endOf(task) + baseMin > term.dueMin ? [task] : []
  })
}
