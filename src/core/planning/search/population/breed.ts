import type { Rng } from '../../../rng.ts'
import type { Indexed } from '../indexed.ts'
import type { Progress } from '../progress.ts'
import type { Schedule } from '../schedule.ts'
import type { Individual } from './decode.ts'
import { createPopulation, POPULATION_SIZE } from './evolve.ts'
import { projectOf, type Project } from './project.ts'

/** A schedule grown takes about as long as so many conflicts of the core. */
const CONFLICTS_A_SCHEDULE = 1 / 3

/** Breeds a population for so many conflicts' worth of time; does nothing if the problem is no plain project. */
export function createBreeding(indexed: Indexed, progress: Progress, rng: Rng): (conflicts: number) => void {
  const project = projectOf(indexed)
  if (!project) return () => {}
  const population = createPopulation(project, rng)
  const price = Math.ceil(POPULATION_SIZE * CONFLICTS_A_SCHEDULE)
  let known: Schedule | undefined

  const isDone = () => progress.isOver() || (progress.best && progress.best.costs[0]! <= progress.lowerBound)

  return (conflicts) => {
    if (progress.best && progress.best !== known) {
      // Rounding down keeps every lag and every turn, which all are whole units.
      population.admit(progress.best.start.map((minute) => Math.floor(minute / project.unitMin)))
    }
    for (let spent = 0; spent < conflicts && !isDone(); spent += price) {
      progress.offer(scheduleOf(population.generation(), project))
      progress.spend(price)
    }
    known = progress.best
  }
}

function scheduleOf({ start, makespan }: Individual, { taskCount, unitMin, unitCost }: Project): Schedule {
  return {
    start: start.map((unit) => unit * unitMin),
    mode: new Int32Array(taskCount),
    slot: new Int32Array(taskCount).fill(-1),
    costs: [makespan * unitCost],
  }
}
