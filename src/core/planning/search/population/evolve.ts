import type { Rng } from '../../../rng.ts'
import { createCrossover } from './crossover.ts'
import { createDecoder, type Individual } from './decode.ts'
import type { Project } from './project.ts'
import { createSampler } from './sample.ts'

export type Population = {
  /** Bears as many children as there are parents and keeps the fittest of both. @returns the best ever found */
  readonly generation: () => Individual
  /** Takes in starts (units) that were found elsewhere. */
  readonly admit: (start: Int32Array) => void
}

export const POPULATION_SIZE = 60
/** After so many generations without anything better than ever a new population is drawn. */
const MOST_STALE = 60

/**
 * A genetic algorithm over orders of tasks. Each order, drawn or born, is made into a schedule, which is justified, and
 * stands for the order of its starts from then on. A population that finds nothing any more makes way for a new one,
 * into which only the best ever is admitted now and then.
 * @see Valls, Ballestín, Quintanilla (2008), A hybrid genetic algorithm for the RCPSP, EJOR 185
 */
export function createPopulation(project: Project, rng: Rng): Population {
  const { taskCount } = project
  const { place, justify, orderOf } = createDecoder(project)
  const sample = createSampler(project, rng)
  const cross = createCrossover(project, rng)
  let members: Individual[] = []
  let best: Individual | undefined
  let staleGenerations = 0

  const remember = (one: Individual): Individual => {
    if (best && one.makespan >= best.makespan) return one
    best = one
    staleGenerations = 0
    return one
  }

  const individualOf = (start: Int32Array, makespan: number): Individual => {
    const end = justify(start, makespan)
    const order = new Int32Array(taskCount)
    orderOf(start, order)
    return remember({ order, start, makespan: end })
  }

  const grow = (order: Int32Array): Individual => {
    const start = new Int32Array(taskCount)
    return individualOf(start, place(order, start))
  }

  /** The better of two. */
  const parent = (): Individual => {
    const one = members[rng.int(members.length)]!
    const other = members[rng.int(members.length)]!
    return one.makespan <= other.makespan ? one : other
  }

  return {
    generation: () => {
      if (members.length < POPULATION_SIZE || staleGenerations++ > MOST_STALE) {
        members = Array.from({ length: POPULATION_SIZE }, () => grow(sample()))
        staleGenerations = 0
        return best!
      }
      const children = members.map(() => grow(cross(parent(), parent())))
      members = fittest([...children, ...members])
      return best!
    },
    admit: (start) => {
      const end = start.reduce((last, from, task) => Math.max(last, from + project.duration[task]!), 0)
      members.push(individualOf(start.slice(), end))
    },
  }
}

/** Of equal ones the young stay; the same schedule never twice. */
function fittest(individuals: readonly Individual[]): Individual[] {
  const seen = new Set<string>()
  const isNew = ({ start }: Individual): boolean => {
    const size = seen.size
    return seen.add(start.join()).size > size
  }
  return individuals
    .toSorted((a, b) => a.makespan - b.makespan)
    .filter(isNew)
    .slice(0, POPULATION_SIZE)
}
