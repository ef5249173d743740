import type { Packs } from './anneal.ts'
import { makeFiring, type Firing } from './firing.ts'
import type { Floor } from './floor.ts'
import { costOfChange, costOfLine, lineOf, type Line } from './line.ts'
import type { Arrangement } from './moves.ts'

/** A firing of one's own is tried at so many places at the end of a line. */
const LAST_PLACES = 8

/**
 * Members by due date, each where it costs least: in a firing that is there or one of its own.
 * @returns undefined if some member finds no place
 */
export function seatAll(floor: Floor, packs: Packs): Arrangement | undefined {
  const lines: Line[] = floor.kilns.map((_, kiln) => lineOf(floor, kiln, [])!)
  const kilnOf = floor.members.map(() => -1)
  const dueOf = floor.members.map(
    ({ penalties, leastMin }) => Math.min(...penalties.map(({ dueMin }) => dueMin), 1e9) + 1e-6 * Math.min(...leastMin),
  )
  const inOrder = floor.members.map((_, member) => member).toSorted((a, b) => dueOf[a]! - dueOf[b]!)
  for (const member of inOrder) {
    let best: { readonly kiln: number; readonly firings: Firing[]; readonly cost: number } | undefined
    for (const { kiln, firings, firing } of places(floor, lines, member)) {
      const cost = costOfChange(floor, kiln, lines[kiln]!, firings) - costOfLine(lines[kiln]!)
      if (cost < (best?.cost ?? Infinity) && packs(kiln, firing)) best = { kiln, firings, cost }
    }
    const { leftOutCost } = floor.members[member]!
    if (leftOutCost !== undefined && leftOutCost < (best?.cost ?? Infinity)) continue
    if (!best) return undefined
    lines[best.kiln] = lineOf(floor, best.kiln, best.firings)!
    kilnOf[member] = best.kiln
  }
  return { floor, lines, kilnOf }
}

function* places(floor: Floor, lines: readonly Line[], member: number) {
  for (const [kiln, { firings }] of lines.entries()) {
    if (!floor.members[member]!.inKiln[kiln]) continue
    for (const [place, { members }] of firings.entries()) {
      const firing = makeFiring(floor, kiln, [...members, member])
      if (firing) yield { kiln, firing, firings: firings.with(place, firing) }
    }
    const firing = makeFiring(floor, kiln, [member])
    if (!firing || firings.length === floor.kilns[kiln]!.slots.length) continue
    for (let place = firings.length; place >= Math.max(0, firings.length - LAST_PLACES); place--) {
      yield { kiln, firing, firings: firings.toSpliced(place, 0, firing) }
    }
  }
}
