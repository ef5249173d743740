/** Designs and clays as the core weighs and measures them. */
import { completedClay } from '#core/drying/clay.ts'
import type { Studio as CoreStudio } from '#core/studio/studio.ts'
import type { Studio } from '../data/queries.ts'

export type Weighed = Pick<CoreStudio, 'clays' | 'designs'>

const known = new WeakMap<Studio, Weighed>()

/** Of each studio it is made once. */
export function weighed(studio: Studio): Weighed {
  const made = known.get(studio) ?? {
    designs: studio.designs,
    // What is still to come weighs nothing.
    clays: studio.clays.map((clay) => ({
      ...clay,
      drying: completedClay(clay.drying, clay.shrinkage.length.dryingRatio),
      deliveries: [],
    })),
  }
  known.set(studio, made)
  return made
}
