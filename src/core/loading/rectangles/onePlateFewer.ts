import type { Rng } from '#core/rng.ts'
import { clearPlate, findSpot, lay, newPlate, rules, type Plate, type Rule, type Spot } from './plate.ts'
import type { Sizes } from './problem.ts'

/** How many steps back late acceptance looks. */
const MEMORY = 200
/**
 * What free room in one plate counts against area left out: enough to break ties, so that room gathers on few plates
 * and large rectangles find a place there.
 */
const ROOM_SHARE = 0.03
/** Chance of rather taking the roomier of two plates for the next ruin; measured, it pays less where nothing turns. */
const ROOMIER = { turning: 1, upright: 0.5 }
/** Chance of passing over a plate when the best spot is sought, so that the same ruin is not always refilled alike. */
const BLINK = 0.02

/**
 * Tries to lay everything on one plate fewer: the emptiest is cleared and what lay on it left out; then a few plates at
 * a time are partly cleared and filled again together with what is left out, until nothing is. A change stays if it
 * costs less than now, or than `MEMORY` steps ago (late acceptance).
 * @returns the plates, or undefined when `isOver` came first
 * @see a goal with an excluded set: arXiv 2508.19306; late acceptance: Burke & Bykov (2017), EJOR 258, 70-78
 */
export function onePlateFewer(
  sizes: Sizes,
  plates: readonly Plate[],
  rng: Rng,
  isOver: () => boolean,
): Plate[] | undefined {
  const [emptiest, ...others] = plates.toSorted((a, b) => a.area - b.area)
  const current = others.map((plate) => copied(sizes, plate)) // the arrays change hands below, the caller's stay
  let leftOut = idsOn(emptiest!)
  let rooms = current.reduce((sum, plate) => sum + gathered(sizes, plate), 0)
  let cost = areaOf(sizes, leftOut) - ROOM_SHARE * rooms
  const memory = new Float64Array(MEMORY).fill(cost)
  const roomier = sizes.mayTurn ? ROOMIER.turning : ROOMIER.upright
  const spares = [newPlate(sizes), newPlate(sizes), newPlate(sizes)]
  for (let step = 0; leftOut.length > 0; step++) {
    if (isOver()) return undefined
    const chosen = someOf(current, rng.next() < 0.5 ? 2 : rng.next() < 0.3 ? 1 : 3, roomier, rng)
    const tried = spares.slice(0, chosen.length)
    const loose = [...leftOut]
    const ruinShare = 0.3 + 0.7 * rng.next()
    chosen.forEach((index, k) => ruin(sizes, current[index]!, tried[k]!, ruinShare, loose, rng))
    order(sizes, loose, rng)
    const still = refill(sizes, tried, loose, rules[rng.int(rules.length)]!, rng)
    let newRooms = rooms
    chosen.forEach((index, k) => (newRooms += gathered(sizes, tried[k]!) - gathered(sizes, current[index]!)))
    const newCost = areaOf(sizes, still) - ROOM_SHARE * newRooms
    const slot = step % MEMORY
    if (newCost <= cost || newCost <= memory[slot]!) {
      chosen.forEach((index, k) => {
        spares[k] = current[index]!
        current[index] = tried[k]!
      })
      leftOut = still
      rooms = newRooms
      cost = newCost
    }
    memory[slot] = Math.min(memory[slot]!, cost)
  }
  return current
}

/** Copies a plate without about a share of what lies on it, which joins what is loose. */
function ruin(sizes: Sizes, plate: Plate, into: Plate, share: number, loose: number[], rng: Rng): void {
  const { ids, laid, count } = plate
  clearPlate(into, sizes.plateLength, sizes.plateWidth)
  for (let k = 0; k < count; k++) {
    if (share > 0.95 || rng.next() < share) loose.push(ids[k]!)
    else lay(into, ids[k]!, laid[4 * k]!, laid[4 * k + 1]!, laid[4 * k + 2]!, laid[4 * k + 3]!)
  }
}

function copied(sizes: Sizes, plate: Plate): Plate {
  const copy = newPlate(sizes)
  const { ids, laid } = plate
  for (let k = 0; k < plate.count; k++) {
    lay(copy, ids[k]!, laid[4 * k]!, laid[4 * k + 1]!, laid[4 * k + 2]!, laid[4 * k + 3]!)
  }
  return copy
}

/** Lays what is loose on the plates, each in turn where the rule likes it best; returns what found no room. */
function refill(sizes: Sizes, plates: readonly Plate[], loose: readonly number[], rule: Rule, rng: Rng): number[] {
  const { lengths, widths, areas, mayTurn, plateLength, plateWidth } = sizes
  const plateArea = plateLength * plateWidth
  const still: number[] = []
  const spot: Spot = { score: Infinity, tie: Infinity, x: 0, y: 0, length: 0, width: 0 }
  for (const id of loose) {
    spot.score = Infinity
    let chosen: Plate | undefined
    for (const plate of plates) {
      if (plate.area + areas[id]! > plateArea || rng.next() < BLINK) continue
      if (findSpot(plate, lengths[id]!, widths[id]!, mayTurn, rule, spot)) chosen = plate
    }
    if (chosen === undefined) still.push(id)
    else lay(chosen, id, spot.x, spot.y, spot.length, spot.width)
  }
  return still
}

/** Large ones first by one measure or another, now and then two neighbours the other way round. */
function order({ areas, lengths, widths }: Sizes, ids: number[], rng: Rng): void {
  const kind = rng.next()
  if (kind < 0.45) sortDown(ids, (id) => areas[id]!)
  else if (kind < 0.6) sortDown(ids, (id) => Math.max(lengths[id]!, widths[id]!))
  else if (kind < 0.75) sortDown(ids, (id) => Math.min(lengths[id]!, widths[id]!))
  else return sortDown(ids, (id) => areas[id]! * (0.5 + rng.next()))
  for (let k = 0; k + 1 < ids.length; k++) {
    if (rng.next() >= 0.15) continue
    const id = ids[k]!
    ids[k] = ids[k + 1]!
    ids[k + 1] = id
  }
}

const ranks: number[] = []

function sortDown(ids: number[], rankOf: (id: number) => number): void {
  // Few and nearly in order: straight insertion beats the engine's sort with its comparing function.
  for (let k = 0; k < ids.length; k++) {
    const id = ids[k]!
    const rank = rankOf(id)
    let at = k
    for (; at > 0 && ranks[at - 1]! < rank; at--) {
      ranks[at] = ranks[at - 1]!
      ids[at] = ids[at - 1]!
    }
    ranks[at] = rank
    ids[at] = id
  }
}

/** Different plates at random, those with more room rather. */
function someOf(plates: readonly Plate[], wanted: number, roomier: number, rng: Rng): number[] {
  const chosen: number[] = []
  while (chosen.length < Math.min(wanted, plates.length)) {
    const [first, second] = [rng.int(plates.length), rng.int(plates.length)]
    const index = rng.next() < roomier && plates[second]!.area < plates[first]!.area ? second : first
    if (!chosen.includes(index)) chosen.push(index)
    else if (!chosen.includes(first)) chosen.push(first)
  }
  return chosen
}

/** Free area of a plate, counted the more the more of the plate it is. */
function gathered({ plateLength, plateWidth }: Sizes, { area }: Plate): number {
  const freeArea = plateLength * plateWidth - area
  return (freeArea * freeArea) / (plateLength * plateWidth)
}

const idsOn = ({ ids, count }: Plate): number[] => [...ids.subarray(0, count)]

const areaOf = ({ areas }: Sizes, ids: readonly number[]): number => ids.reduce((sum, id) => sum + areas[id]!, 0)
