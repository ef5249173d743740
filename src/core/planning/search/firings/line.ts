import { firstIn } from './spans.ts'
import { penaltyOf, type Firing } from './firing.ts'
import type { Floor } from './floor.ts'

/** The firings of a kiln in turn, each as early as may be, with running sums of what they cost. */
export type Line = {
  readonly firings: readonly Firing[]
  readonly startMin: readonly number[]
  /** `sums[k]` is what the first k firings cost. */
  readonly sums: readonly number[]
}

export const costOfLine = ({ sums }: Line): number => sums.at(-1)!

/** @returns undefined if some firing comes too late for its members or the horizon */
export function lineOf(floor: Floor, at: number, firings: readonly Firing[]): Line | undefined {
  const startMin: number[] = []
  const sums = [0]
  const time = turn(floor, at)
  for (let k = 0; k < firings.length; k++) {
    const next = time(firings[k - 1], startMin[k - 1] ?? 0, firings[k]!)
    if (next === undefined) return undefined
    startMin.push(next)
    sums.push(sums[k]! + costOfTurn(floor, at, firings[k - 1], firings[k]!, next))
  }
  return { firings, startMin, sums }
}

/** What another line of firings would cost, by looking only at where it differs; Infinity if it cannot be. */
export function costOfChange(floor: Floor, at: number, line: Line, firings: readonly Firing[]): number {
  const { firings: before, startMin, sums } = line
  let first = 0
  while (first < firings.length && firings[first] === before[first]) first++
  let tail = 0
  const mostTail = Math.min(firings.length, before.length) - first
  while (tail < mostTail && firings.at(-1 - tail) === before.at(-1 - tail)) tail++
  const shift = before.length - firings.length
  const startOf = turn(floor, at)
  let cost = sums[first]!
  let previousMin = startMin[first - 1] ?? 0
  for (let k = first; k < firings.length; k++) {
    const nextMin = startOf(firings[k - 1], previousMin, firings[k]!)
    if (nextMin === undefined) return Infinity
    cost += costOfTurn(floor, at, firings[k - 1], firings[k]!, nextMin)
    // From a firing on that starts as before, all is as before.
    if (k >= firings.length - tail && nextMin === startMin[k + shift]) return cost + sums.at(-1)! - sums[k + shift + 1]!
    previousMin = nextMin
  }
  return cost
}

/** When a firing starts after another that started then; undefined if it cannot. */
function turn(floor: Floor, at: number) {
  const kiln = floor.kilns[at]!
  return (before: Firing | undefined, beforeMin: number, next: Firing): number | undefined => {
    const family = before ? kiln.classOf[before.mode]! : kiln.initialClass
    const freeMin = before
      ? beforeMin + kiln.durationMin[before.mode]! + kiln.setupMin(family, kiln.classOf[next.mode]!)
      : 0
    const startMin = firstIn(kiln.starts(next.mode, family), Math.max(freeMin, next.leastMin))
    return startMin <= next.mostMin && startMin !== Infinity ? startMin : undefined
  }
}

function costOfTurn(floor: Floor, at: number, before: Firing | undefined, next: Firing, startMin: number): number {
  const kiln = floor.kilns[at]!
  const family = before ? kiln.classOf[before.mode]! : kiln.initialClass
  let cost = kiln.modeCost[next.mode]! + kiln.setupCost(family, kiln.classOf[next.mode]!)
  for (const index of next.members) {
    const member = floor.members[index]!
    const own = member.inKiln[at]!.ownMode[next.mode]!
    cost += member.modeCost[own]! + penaltyOf(member, own, startMin)
  }
  return cost
}
