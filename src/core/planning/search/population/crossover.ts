import type { Rng } from '../../../rng.ts'
import type { Individual } from './decode.ts'
import type { Project } from './project.ts'

/** What counts as a peak, as a share of the highest use: drawn anew for each child. */
const PEAK_SHARE = { least: 0.75, most: 0.95 }
/** How likely a task is to change places with the next. */
const SWAP_SHARE = 0.05

/**
 * Peak crossover: what is under way where the mother uses the resources most keeps the mother's order, the rest comes
 * in the father's order, and who holds back another comes first. Then a few neighbours change places.
 * @see Valls, Ballestín, Quintanilla (2008), section 3.3
 * @returns the child's order
 */
export function createCrossover(project: Project, rng: Rng): (mother: Individual, father: Individual) => Int32Array {
  const { taskCount, horizon, duration, lags } = project
  const holders: number[][] = Array.from({ length: taskCount }, () => [])
  for (const { from, to } of lags) holders[to]!.push(from)
  const shares = sharesOf(project)
  const use = new Float64Array(horizon + 1)
  const isInPeak = new Uint8Array(taskCount)
  const isBorn = new Uint8Array(taskCount)

  const markPeaks = ({ start, makespan }: Individual): void => {
    use.fill(0, 0, makespan + 1)
    for (let task = 0; task < taskCount; task++) {
      const end = start[task]! + duration[task]!
      for (let unit = start[task]!; unit < end; unit++) use[unit]! += shares[task]!
    }
    let highest = 0
    for (let unit = 0; unit < makespan; unit++) highest = Math.max(highest, use[unit]!)
    const peak = highest * (PEAK_SHARE.least + rng.next() * (PEAK_SHARE.most - PEAK_SHARE.least))
    for (let task = 0; task < taskCount; task++) {
      const end = start[task]! + duration[task]!
      let unit = start[task]!
      while (unit < end && use[unit]! < peak) unit++
      isInPeak[task] = unit < end ? 1 : 0
    }
  }

  const swapNeighbours = (order: Int32Array): void => {
    for (let i = 0; i + 1 < taskCount; i++) {
      const task = order[i]!
      const next = order[i + 1]!
      if (rng.next() >= SWAP_SHARE || holders[next]!.includes(task)) continue
      order[i] = next
      order[i + 1] = task
    }
  }

  return (mother, father) => {
    markPeaks(mother)
    isBorn.fill(0)
    const child = new Int32Array(taskCount)
    let size = 0
    const append = (task: number): void => {
      if (isBorn[task] === 1) return
      for (const holder of holders[task]!) append(holder)
      isBorn[task] = 1
      child[size++] = task
    }
    let nextOfMother = 0
    for (const task of father.order) {
      if (isInPeak[task] === 0) append(task)
      else {
        // In the father's place for a task of the peaks stands the mother's next one.
        while (isInPeak[mother.order[nextOfMother]!] === 0) nextOfMother++
        append(mother.order[nextOfMother++]!)
      }
    }
    swapNeighbours(child)
    return child
  }
}

/** By task, what share of all the resources it holds. */
function sharesOf({ taskCount, capacity, demand }: Project): Float64Array {
  return Float64Array.from({ length: taskCount }, (_, task) =>
    capacity.reduce(
      (sum, room, resource) => sum + (room > 0 ? demand[task * capacity.length + resource]! / room : 0),
      0,
    ),
  )
}
