import type { Rng } from '#core/rng.ts'
import { lossOf, type Bundle } from './bundle.ts'
import { place, type Layout, type Packing } from './layout.ts'
import type { Way } from './promising.ts'

/**
 * One pass: each bundle in turn where it wastes least, the rest left out.
 * @param enough loss at which the pass is given up, as a better one is known
 */
export function constructed(
  packing: Packing,
  { arrangement, queue }: Way,
  enough: number,
  rng: Rng,
): Layout | undefined {
  const layout: Layout = { arrangement, levels: [], out: [] }
  return setDown(packing, layout, queue, enough, rng) ? layout : undefined
}

/** Adds each bundle in turn where it wastes least, or to what is left out; false, and unfinished, at a loss of `enough`. */
export function setDown(packing: Packing, layout: Layout, queue: readonly Bundle[], enough: number, rng: Rng): boolean {
  let loss = 0
  for (const bundle of queue) {
    if (place(packing, layout, bundle, rng)) continue
    layout.out.push(bundle)
    loss += lossOf(bundle)
    if (loss >= enough) return false
  }
  return true
}

/** The best of some ways: the one that leaves out least, the first that leaves out nothing. */
export function bestOf(packing: Packing, ways: readonly Way[], rng: Rng): Layout | undefined {
  let best: Layout | undefined
  for (const way of ways) {
    best = constructed(packing, way, best === undefined ? Infinity : costOf(best), rng) ?? best
    if (best !== undefined && costOf(best) === 0) break
  }
  return best
}

/** What is left out, weighed; 0 when everything is in. */
export const costOf = (layout: Layout): number => layout.out.reduce((sum, bundle: Bundle) => sum + lossOf(bundle), 0)
