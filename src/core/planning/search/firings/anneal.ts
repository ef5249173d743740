import type { Rng } from '../../../rng.ts'
import type { Firing } from './firing.ts'
import { costOfChange, costOfLine, lineOf, type Line } from './line.ts'
import { moves, type Arrangement, type Change } from './moves.ts'

/** Whether the firing's members fit the kiln, as far as more than their sizes decides it. */
export type Packs = (kiln: number, firing: Firing) => boolean

/** How many changes to try, and how much worse one may be at first and at last (as a typical one is). */
export type Cooling = { readonly tries: number; readonly firstHeat: number; readonly lastHeat: number }

/**
 * Simulated annealing over arrangements.
 * @returns the best one seen
 * @see Kirkpatrick, Gelatt, Vecchi (1983), Optimization by simulated annealing, Science 220
 */
export function anneal(
  begin: Arrangement,
  { tries, firstHeat, lastHeat }: Cooling,
  packs: Packs,
  isCancelled: () => boolean,
  rng: Rng,
): Arrangement {
  const { floor } = begin
  const lines: Line[] = [...begin.lines]
  const kilnOf: number[] = [...begin.kilnOf]
  const arrangement: Arrangement = { floor, lines, kilnOf }
  const draw = drawing(rng)
  let best: Arrangement = begin
  let excess = 0
  const cooling = (lastHeat / firstHeat) ** (1 / tries)
  let heat = firstHeat
  for (let tried = 0; tried < tries; tried++, heat *= cooling) {
    if (tried % 256 === 0 && isCancelled()) break
    const change = draw(arrangement)
    if (!change) continue
    const delta = costOfMove(arrangement, change)
    if (delta > 0 && rng.next() >= Math.exp(-delta / heat)) continue
    if (delta === Infinity || !packsAll(arrangement, change, packs)) continue
    apply(arrangement, change, lines, kilnOf)
    excess += delta
    if (excess < -1e-7) {
      best = { floor, lines: [...lines], kilnOf: [...kilnOf] }
      excess = 0
    }
  }
  return best
}

/** Any change, by the moves' shares. */
export function drawing(rng: Rng): (arrangement: Arrangement) => Change | undefined {
  const whole = moves.reduce((sum, { share }) => sum + share, 0)
  return (arrangement) => {
    let ball = rng.next() * whole
    for (const { move, share } of moves) {
      ball -= share
      if (ball < 0) return move(arrangement, rng)
    }
    return undefined
  }
}

/** What a change costs more; Infinity if it cannot be. */
export function costOfMove({ floor, lines }: Arrangement, change: Change): number {
  let delta = 0
  for (const { kiln, firings } of change.lines) {
    if (firings.length > floor.kilns[kiln]!.slots.length) return Infinity
    delta += costOfChange(floor, kiln, lines[kiln]!, firings) - costOfLine(lines[kiln]!)
  }
  if (change.leaves !== undefined) delta += floor.members[change.leaves]!.leftOutCost!
  if (change.comes !== undefined) delta -= floor.members[change.comes]!.leftOutCost!
  return delta
}

function packsAll({ lines }: Arrangement, change: Change, packs: Packs): boolean {
  return change.lines.every(({ kiln, firings }) => {
    const known = new Set(lines[kiln]!.firings)
    return firings.every((firing) => known.has(firing) || packs(kiln, firing))
  })
}

function apply({ floor }: Arrangement, change: Change, lines: Line[], kilnOf: number[]): void {
  for (const { kiln, firings } of change.lines) {
    const known = new Set(lines[kiln]!.firings)
    lines[kiln] = lineOf(floor, kiln, firings)!
    for (const firing of firings) {
      if (!known.has(firing)) for (const member of firing.members) kilnOf[member] = kiln
    }
  }
  if (change.leaves !== undefined) kilnOf[change.leaves] = -1
}
