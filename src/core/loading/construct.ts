import type { Rng } from '#core/rng.ts'
import type { Bundle } from './bundle.ts'
import type { Arrangement } from './kilnPlan.ts'
import { place, type Layout, type Packing } from './layout.ts'

/** Orders in which bundles are set down; must-go pieces always come first. */
export type Order = (a: Bundle, b: Bundle) => number

const tallFirst: Order = (a, b) => b.heightMm - a.heightMm || b.areaMm2 - a.areaMm2
const wideFirst: Order = (a, b) => b.areaMm2 - a.areaMm2 || b.heightMm - a.heightMm
const bulkyFirst: Order = (a, b) => b.areaMm2 * b.heightMm - a.areaMm2 * a.heightMm

/** Wide pieces first within classes of about one post length. */
const byHeightClass =
  (classMm: number): Order =>
  (a, b) =>
    Math.ceil(b.heightMm / classMm) - Math.ceil(a.heightMm / classMm) || b.areaMm2 - a.areaMm2

/** The best single one by trial comes first. */
export const orders: readonly Order[] = [byHeightClass(52), tallFirst, byHeightClass(26), wideFirst, bulkyFirst]

/** One pass: each bundle in turn where it wastes least, the rest left out. */
export function constructed(
  packing: Packing,
  arrangement: Arrangement,
  bundles: readonly Bundle[],
  order: Order,
  rng: Rng,
): Layout {
  const queue = [...bundles].sort(
    (a, b) => Number(b.mustGo) - Number(a.mustGo) || (a.mustGo ? 0 : b.urgency - a.urgency) || order(a, b),
  )
  const layout: Layout = { arrangement, levels: [], out: [] }
  for (const bundle of queue) if (!place(packing, layout, bundle, rng)) layout.out.push(bundle)
  return layout
}

/** What is left out, weighed: must-go pieces above all, then volume. 0 when everything is in. */
export function costOf(layout: Layout): number {
  let cost = 0
  for (const { wareMm3, mustGo, urgency } of layout.out) cost += wareMm3 * (mustGo ? 1_000 : 1 + Math.max(0, urgency))
  return cost
}
