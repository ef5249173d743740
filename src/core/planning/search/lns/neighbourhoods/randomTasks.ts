import type { Neighbourhood } from '../neighbourhood.ts'

/** Any tasks: what no pattern would free together. */
export const randomTasks: Neighbourhood = {
  name: 'random',
  tasks: ({ indexed }, size, rng) => {
    const chosen = new Set<number>()
    const count = Math.min(size, indexed.taskCount)
    while (chosen.size < count) chosen.add(rng.int(indexed.taskCount))
    return [...chosen]
  },
}
