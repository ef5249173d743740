import type { Floor, FloorKiln } from './floor.ts'
import type { Loose } from './loose.ts'

/** Members (of the floor, by index) that share a firing. Never changed: another set is another firing. */
export type Firing = {
  readonly members: readonly number[]
  /** Of the kiln's slots. */
  readonly mode: number
  /** When all of them may start, in that mode. */
  readonly leastMin: number
  readonly mostMin: number
}

/**
 * A firing of these members in the cheapest mode that suits them all, or in the one wanted.
 * @returns undefined if there is no such mode or no room
 */
export function makeFiring(floor: Floor, at: number, members: readonly number[], wanted?: number): Firing | undefined {
  const kiln = floor.kilns[at]!
  if (!hasRoom(floor, at, members)) return undefined
  let best: (Omit<Firing, 'members'> & { readonly cost: number }) | undefined
  for (let mode = 0; mode < kiln.modeCost.length; mode++) {
    if (wanted !== undefined && mode !== wanted) continue
    const next = inMode(floor, kiln, at, members, mode)
    if (!next) continue
    const isLess = !best || next.cost < best.cost
    if (isLess || (next.cost === best!.cost && kiln.durationMin[mode]! < kiln.durationMin[best!.mode]!)) best = next
  }
  return best && { members, mode: best.mode, leastMin: best.leastMin, mostMin: best.mostMin }
}

function hasRoom(floor: Floor, at: number, members: readonly number[]): boolean {
  const { room } = floor.kilns[at]!
  for (let dimension = 0; dimension < room.length; dimension++) {
    let used = 0
    for (const member of members) used += floor.members[member]!.inKiln[at]?.size[dimension] ?? 0
    if (used > room[dimension]!) return false
  }
  return true
}

function inMode(floor: Floor, kiln: FloorKiln, at: number, members: readonly number[], mode: number) {
  let leastMin = 0
  let mostMin = Infinity
  let cost = kiln.modeCost[mode]!
  for (const index of members) {
    const member = floor.members[index]!
    const own = member.inKiln[at]?.ownMode[mode] ?? -1
    if (own < 0) return undefined
    leastMin = Math.max(leastMin, member.leastMin[own]!)
    mostMin = Math.min(mostMin, member.mostMin[own]!)
    cost += member.modeCost[own]!
  }
  return leastMin > mostMin ? undefined : { mode, leastMin, mostMin, cost }
}

/** What the times of a member cost if its firing starts then. */
export function penaltyOf({ penalties, durationMin }: Loose, own: number, startMin: number): number {
  let sum = 0
  for (const { kind, at, dueMin, weight } of penalties) {
    const byMin = (at === 'end' ? startMin + durationMin[own]! : startMin) - dueMin
    if (kind === 'before') sum += weight * Math.max(0, -byMin)
    else if (byMin > 0) sum += kind === 'once' ? weight : weight * byMin
  }
  return sum
}
