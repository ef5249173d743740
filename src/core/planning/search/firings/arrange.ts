import type { Rng } from '../../../rng.ts'
import { evaluate } from '../evaluate.ts'
import type { Indexed } from '../indexed.ts'
import type { Packing } from '../packing.ts'
import { isBetter, LEFT_OUT, type Schedule } from '../schedule.ts'
import { anneal, costOfMove, drawing, type Packs } from './anneal.ts'
import { seatAll } from './construct.ts'
import { makeFiring } from './firing.ts'
import { floorOf, type Floor } from './floor.ts'
import { lineOf } from './line.ts'
import type { Weights } from './loose.ts'
import type { Arrangement } from './moves.ts'

/** Draws that show how much a change typically costs. */
const SOUNDINGS = 400
/** Heats, in such costs. */
const FIRST_HEAT = 1
const LAST_HEAT = 0.01
const FIRST_TRIES = 20_000
const MOST_TRIES = 2_000_000

/** Rearranges what is fired with what, the rest of the schedule held. */
export type Arranger = {
  /** A first schedule of a problem that is nothing but kilns and their members; undefined if none is found. */
  readonly first: () => Schedule | undefined
  /** @returns a better schedule, if one was found, and how many changes were tried (0: nothing to rearrange) */
  readonly step: (schedule: Schedule) => { readonly next: Schedule | undefined; readonly tries: number }
}

export function createArranger(
  indexed: Indexed,
  packing: Packing | undefined,
  isCancelled: () => boolean,
  rng: Rng,
): Arranger {
  let tries = FIRST_TRIES
  const packs = packsBy(indexed, packing)

  const first = (): Schedule | undefined => {
    if (!isOnlyKilns(indexed)) return undefined
    const nothing: Schedule = {
      start: new Int32Array(indexed.taskCount),
      mode: new Int32Array(indexed.taskCount).fill(LEFT_OUT),
      slot: new Int32Array(indexed.taskCount).fill(-1),
      costs: [],
    }
    const floor = floorOf(indexed, nothing, weightsFor(indexed, nothing))
    const seated = floor && seatAll(floor, packs(floor))
    return seated && scheduleOf(indexed, nothing, seated)
  }

  const step: Arranger['step'] = (schedule) => {
    const floor = floorOf(indexed, schedule, weightsFor(indexed, schedule))
    const begin = floor && arrangementOf(floor, schedule)
    if (!begin) return { next: undefined, tries: 0 }
    const typical = typicalCost(begin, rng)
    if (typical === undefined) return { next: undefined, tries: 0 }
    const cooling = { tries, firstHeat: FIRST_HEAT * typical, lastHeat: LAST_HEAT * typical }
    const best = anneal(begin, cooling, packs(floor), isCancelled, rng)
    const next = scheduleOf(indexed, schedule, best)
    const tried = tries
    tries = Math.min(MOST_TRIES, 2 * tries)
    return { next: isBetter(next.costs, schedule.costs) ? next : undefined, tries: tried }
  }
  return { first, step }
}

/** Every task is a slot or a member, and lags run from the origin only. */
function isOnlyKilns({ kilns, taskCount, links, curves }: Indexed): boolean {
  const known = new Set(kilns.flatMap(({ slots, members }) => [...slots, ...members.map(({ task }) => task)]))
  return (
    known.size === taskCount &&
    curves.length === 0 &&
    links.every(({ from, to }) => from === taskCount || to === taskCount || from === to)
  )
}

/** A unit of each level outweighs what the later ones cost now, with some room. */
function weightsFor({ problem }: Indexed, { costs }: Schedule): Weights {
  let weight = 1
  return problem.costs.map((_, level) => {
    const own = weight
    weight /= 100 + 2 * (costs[level + 1] ?? 0)
    return own
  })
}

/** The median of what changes for the worse cost. */
function typicalCost(arrangement: Arrangement, rng: Rng): number | undefined {
  const draw = drawing(rng)
  const costs: number[] = []
  for (let sounding = 0; sounding < SOUNDINGS; sounding++) {
    const change = draw(arrangement)
    const cost = change ? costOfMove(arrangement, change) : 0
    if (cost > 0 && cost < Infinity) costs.push(cost)
  }
  return costs.toSorted((a, b) => a - b)[costs.length >> 1]
}

/** The oracle, asked once for each set. */
function packsBy({ problem, kilns }: Indexed, packing: Packing | undefined) {
  const known = new Map<string, boolean>()
  return (floor: Floor): Packs => {
    if (!packing) return () => true
    return (at, { members }) => {
      const kiln = problem.kilns![kilns.findIndex(({ slots }) => slots === floor.kilns[at]!.slots)]!
      const ids = members.map((member) => problem.tasks[floor.members[member]!.task]!.id).toSorted()
      const key = [kiln.id, ...ids].join()
      const before = known.get(key)
      if (before !== undefined) return before
      const answer = packing.oracle(kiln.id, ids)
      if (answer.outcome === 'not-found') packing.unproven.push(answer.memberIds)
      known.set(key, answer.outcome === 'fits')
      return answer.outcome === 'fits'
    }
  }
}

/** @returns undefined if the schedule's firings do not hold by themselves */
function arrangementOf(floor: Floor, schedule: Schedule): Arrangement | undefined {
  const kilnOf = floor.members.map(() => -1)
  const lines = floor.kilns.flatMap(({ slots }, kiln) => {
    const firings = slots.flatMap((slot) => {
      const members = floor.members.flatMap(({ task }, member) =>
        schedule.mode[task] !== LEFT_OUT && schedule.slot[task] === slot ? [member] : [],
      )
      // What nothing is fired in is left out.
      if (members.length === 0) return []
      for (const member of members) kilnOf[member] = kiln
      return makeFiring(floor, kiln, members, schedule.mode[slot]!) ?? []
    })
    return lineOf(floor, kiln, firings) ?? []
  })
  const seated = lines.reduce((sum, { firings }) => sum + firings.flatMap(({ members }) => members).length, 0)
  const isWhole = lines.length === floor.kilns.length && seated === kilnOf.filter((kiln) => kiln >= 0).length
  return isWhole ? { floor, lines, kilnOf } : undefined
}

function scheduleOf(indexed: Indexed, base: Schedule, { floor, lines, kilnOf }: Arrangement): Schedule {
  const start = base.start.slice()
  const mode = base.mode.slice()
  const slot = base.slot.slice()
  floor.members.forEach(({ task }, member) => {
    if (kilnOf[member]! >= 0) return
    mode[task] = LEFT_OUT
    slot[task] = -1
  })
  floor.kilns.forEach((kiln, at) => {
    kiln.slots.forEach((one, place) => {
      const firing = lines[at]!.firings[place]
      mode[one] = firing ? firing.mode : LEFT_OUT
      if (!firing) return
      start[one] = lines[at]!.startMin[place]!
      for (const member of firing.members) {
        const { task, inKiln } = floor.members[member]!
        start[task] = start[one]
        mode[task] = inKiln[at]!.ownMode[firing.mode]!
        slot[task] = one
      }
    })
  })
  return { start, mode, slot, costs: evaluate(indexed, { start, mode, slot }) }
}
