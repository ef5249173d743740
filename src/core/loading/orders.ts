/** Orders in which bundles are set down. */
import type { Bundle } from './bundle.ts'

/** Negative: the first is set down before the second. Must-go bundles come before all others in any case. */
export type Order = (a: Bundle, b: Bundle) => number

const tallFirst: Order = (a, b) => b.heightMm - a.heightMm || b.areaMm2 - a.areaMm2
const wideFirst: Order = (a, b) => b.areaMm2 - a.areaMm2 || b.heightMm - a.heightMm
export const bulkyFirst: Order = (a, b) => b.areaMm2 * b.heightMm - a.areaMm2 * a.heightMm

/** Wide ones first within classes of height. */
const byHeightClass =
  (classMm: number): Order =>
  (a, b) =>
    Math.ceil(b.heightMm / classMm) - Math.ceil(a.heightMm / classMm) || b.areaMm2 - a.areaMm2

/** About two inches, the step between common posts: the best single class by trial. */
const byPost = byHeightClass(52)

/** The best single one by trial comes first. */
export const orders: readonly Order[] = [byPost, tallFirst, byHeightClass(26), wideFirst, bulkyFirst]

const byOtherClasses = [35, 45, 60, 70, 80, 100].map(byHeightClass)

/** What is taller than this comes last: one tall piece less may make room for a level of low ones. */
const tallLast =
  (mostMm: number, order: Order): Order =>
  (a, b) =>
    Number(a.heightMm > mostMm) - Number(b.heightMm > mostMm) || order(a, b)

/** Orders worth trying in a kiln whose posts leave levels of these heights for ware. */
export function ordersFor(levelHeightsMm: readonly number[]): Order[] {
  const byLevel: Order = (a, b) => levelOf(b, levelHeightsMm) - levelOf(a, levelHeightsMm) || b.areaMm2 - a.areaMm2
  const late = levelHeightsMm.flatMap((mm) => [tallLast(mm, byPost), tallLast(mm, byLevel)])
  return [...orders, ...byOtherClasses, byLevel, ...late]
}

/** Index of the lowest level that takes the bundle. */
function levelOf({ heightMm }: Bundle, levelHeightsMm: readonly number[]): number {
  const level = levelHeightsMm.findIndex((mm) => mm >= heightMm)
  return level < 0 ? levelHeightsMm.length : level
}
