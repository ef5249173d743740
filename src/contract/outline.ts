/** Outlines seen from above. */
import { listOf, quantity, record } from './fields.ts'

const point = record('a point', {
  xMm: quantity('x', 'mm', -3_000, 3_000),
  yMm: quantity('y', 'mm', -3_000, 3_000),
})

/** Every point within `radiusMm` of one of the hulls; a hull is convex, its points counter-clockwise. */
export const footprint = record('an outline', {
  hulls: listOf('hulls of an outline', listOf('points of a hull', point, 1, 400), 1, 100),
  radiusMm: quantity('The radius around the hulls', 'mm', 0, 1_500),
})
