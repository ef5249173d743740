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

export const orders: readonly Order[] = [tallFirst, byHeightClass(26), byHeightClass(52), wideFirst, bulkyFirst]

/** One pass: each bundle in turn where it wastes least, the rest left out. */
export function constructed(
  packing: Packing,
  arrangement: Arrangement,
  bundles: readonly Bundle[],
  order: Order,
  rng: Rng,
): Layout {
  const layout: Layout = { arrangement, levels: [], out: [] }
  const queue = [...bundles].sort(
    (a, b) => Number(b.mustGo) - Number(a.mustGo) || (a.mustGo ? 0 : b.urgency - a.urgency) || order(a, b),
  )
  for (const bundle of queue) if (!place(packing, layout, bundle, rng)) layout.out.push(bundle)
  return layout
}

/** What is left out, weighed: must-go pieces above all, then volume. 0 when everything is in. */
export function costOf(layout: Layout): number {
  let cost = 0
  for (const bundle of layout.out) {
    cost += bundle.wareMm3 * (bundle.mustGo ? 1_000 : 1 + Math.max(0, bundle.urgency))
  }
  return cost
}
