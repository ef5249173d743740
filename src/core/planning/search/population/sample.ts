import type { Rng } from '../../../rng.ts'
import type { Project } from './project.ts'

/**
 * Orders drawn at random: of the tasks that may be next, one that must be over soon is likelier.
 * @see Drexl (1991), regret-based biased random sampling; Kolisch (1996), by latest finish time
 */
export function createSampler(project: Project, rng: Rng): () => Int32Array {
  const { taskCount, lags, topological } = project
  const latest = latestEnds(project)
  const held: number[][] = Array.from({ length: taskCount }, () => [])
  const holderCount = new Int32Array(taskCount)
  for (const { from, to } of lags) {
    held[from]!.push(to)
    holderCount[to]!++
  }
  const waitingFor = new Int32Array(taskCount)

  const draw = (eligible: readonly number[]): number => {
    const last = eligible.reduce((most, task) => Math.max(most, latest[task]!), -Infinity)
    const chance = (task: number) => (last - latest[task]! + 1) ** 2
    let ball = rng.next() * eligible.reduce((sum, task) => sum + chance(task), 0)
    return Math.max(
      0,
      eligible.findIndex((task) => (ball -= chance(task)) < 0),
    )
  }

  return () => {
    waitingFor.set(holderCount)
    const eligible = Array.from(topological).filter((task) => holderCount[task] === 0)
    return Int32Array.from({ length: taskCount }, () => {
      const [task] = eligible.splice(draw(eligible), 1)
      for (const next of held[task!]!) if (--waitingFor[next]! === 0) eligible.push(next)
      return task!
    })
  }
}

/** By task, when it must end at the latest (before the end of all, as far as lags say), in units; negative. */
function latestEnds({ taskCount, duration, lags, topological }: Project): Int32Array {
  const latest = new Int32Array(taskCount)
  for (const task of topological.toReversed()) {
    for (const { from, weight, to } of lags) {
      if (from !== task) continue
      latest[task] = Math.min(latest[task]!, latest[to]! - duration[to]! - weight + duration[task]!)
    }
  }
  return latest
}
