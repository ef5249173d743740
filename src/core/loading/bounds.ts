import { grownAreaMm2, outlineOf } from './outline.ts'
import { clearOf, leastHeight, tooLarge, unusableKiln, type Clear } from './onePiece.ts'
import { chamberAreaMm2 } from './region.ts'
import type { KilnSpace, LoadItem, LoadKind, Reason } from './types.ts'

/** Pieces that cannot all go in one load of this kiln, and why. Every refutation is a proof. */
export type Refutation = { readonly subset: readonly string[]; readonly reason: Reason }

/**
 * Proves, where it can, that no load takes all of the pieces. Each argument leaves furniture out of account or counts
 * it at its least, so that it holds for every way of placing shelves, not only for those the packer tries:
 * sizes, masses, firing ranges, then heights over one another (pieces too wide to stand side by side), then the volume
 * of the chamber under dual feasible functions of the heights.
 * @see Fekete & Schepers (2004), "A general framework for bounds for higher-dimensional orthogonal packing problems":
 *   a vertical line meets heights that sum to one chamber at most, so any dual feasible function of them does too
 */
export function refutation(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind): Refutation | undefined {
  const unusable = unusableKiln(kiln)
  if (unusable !== undefined) return { subset: items.map((item) => item.key), reason: unusable }
  const clear = clearOf(kiln)
  for (const item of items) {
    const reason = tooLarge(clear, item, kind)
    if (reason !== undefined) return { subset: [item.key], reason }
  }
  const room = roomOf(kiln, items, kind)
  return firingRefutation(items) ?? massRefutation(kiln, items) ?? stackRefutation(room, items, kind)
}

/**
 * Loads that all the pieces together need at least, in whichever of the kilns: proved like a refutation. Every load
 * offers one height of its chamber to pieces too wide to stand side by side there, and one floor to any dual feasible
 * function of their heights there; a piece counts as in the kiln in which it takes the least share. Pieces that go in no
 * load at all must be left out beforehand.
 */
export function fewestLoads(kilns: readonly KilnSpace[], items: readonly LoadItem[], kind: LoadKind): number {
  if (items.length === 0) return 0
  const rooms = kilns.map((kiln) => roomOf(kiln, items, kind))
  const shares = items.map((item) => {
    const takesIt = rooms.filter((room) => tooLarge(room, item, kind) === undefined)
    return leastOfEach((takesIt.length > 0 ? takesIt : rooms).map((room) => sharesOfALoad(room, item, kind)))
  })
  const byArgument = shares[0]!.map((_, argument) => shares.reduce((sum, own) => sum + own[argument]!, 0))
  const mostKg = Math.max(...kilns.map(({ maxWareKg }) => maxWareKg ?? Infinity))
  return Math.max(1, ...[massOf(items) / mostKg, ...byArgument].map((loads) => Math.ceil(loads - 1e-6)))
}

/** What a piece takes at least of a load in this room: by width, then by each dual feasible function. */
function sharesOfALoad(room: Room, item: LoadItem, kind: LoadKind): number[] {
  if (mayVanish(room, item)) return [0, ...dualFeasible.map(() => 0)]
  const share = shareOf(room, item, kind)
  const areaShare = leastArea(item, kind, room.gapMm / 2) / room.areaMm2
  const leastMm = (room.reachMm - room.gapMm / 2) / 2
  const wide = leastInradius(item, kind) > leastMm ? share : 0
  return [wide, ...dualFeasible.map((feasible) => feasible(share) * areaShare)]
}

const leastOfEach = (lists: readonly (readonly number[])[]): number[] =>
  lists[0]!.map((_, i) => Math.min(...lists.map((list) => list[i]!)))

/** What the chamber offers several pieces at most. */
type Room = Clear & {
  /** Height that vertically ordered pieces share, each counted with its spacing. */
  readonly sharedMm: number
  /** Least spacing between a piece and one above it. */
  readonly spacingMm: number
  readonly gapMm: number
  /** Floor for outlines grown by half the gap. */
  readonly areaMm2: number
  /** Largest hollow and the second, which pieces may vanish into. */
  readonly hollows: readonly [number, number]
}

function roomOf(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind): Room {
  const { chamber, clearances } = kiln
  const clear = clearOf(kiln)
  const gapMm = kind === 'glaze' ? clearances.glazeGapMm : clearances.bisqueGapMm
  const mayPile = kind === 'bisque' && items.some((item) => item.stacking.maxAbove > 0)
  const spacingMm = mayPile ? 0 : clearances.headspaceMm + clear.thinnestShelfMm
  return {
    ...clear,
    sharedMm: clear.heightMm + spacingMm,
    spacingMm,
    gapMm,
    areaMm2: chamberAreaMm2(chamber.shape, clearances.wallMm - gapMm / 2),
    hollows: mayPile ? largestHollows(items) : [0, 0],
  }
}

function firingRefutation(items: readonly LoadItem[]): Refutation | undefined {
  let hottest: LoadItem | undefined // the piece that must be fired highest, and the one that bears least
  let coolest: LoadItem | undefined
  for (const item of items) {
    if (item.firing === undefined) continue
    if (hottest === undefined || item.firing.lowC > hottest.firing!.lowC) hottest = item
    if (coolest === undefined || item.firing.highC < coolest.firing!.highC) coolest = item
  }
  if (hottest === undefined || coolest === undefined || hottest.firing!.lowC <= coolest.firing!.highC) return undefined
  const params = { lowC: hottest.firing!.lowC, highC: coolest.firing!.highC, piece: hottest.key, other: coolest.key }
  return { subset: [...new Set([hottest.key, coolest.key])], reason: { code: 'firing-ranges-apart', params } }
}

function massRefutation(kiln: KilnSpace, items: readonly LoadItem[]): Refutation | undefined {
  const { maxWareKg } = kiln
  if (maxWareKg === undefined) return undefined
  const subset = smallestExceeding(
    items,
    items.map((item) => item.massKg),
    maxWareKg,
  )
  return subset && { subset, reason: { code: 'too-heavy', params: { massKg: massOf(items), maxWareKg } } }
}

const massOf = (items: readonly LoadItem[]): number => items.reduce((sum, item) => sum + item.massKg, 0)

function stackRefutation(room: Room, items: readonly LoadItem[], kind: LoadKind): Refutation | undefined {
  const counted = items.filter((item) => !mayVanish(room, item))
  const share = (item: LoadItem): number => shareOf(room, item, kind)
  return wideRefutation(room, counted, kind, share) ?? volumeRefutation(room, counted, kind, share)
}

/** Share of the chamber's height that a piece takes with its spacing, from below. */
function shareOf(room: Room, item: LoadItem, kind: LoadKind): number {
  const spacingMm = item.lidOf === undefined ? room.spacingMm : 0
  return (leastHeight(item, kind) + spacingMm) / room.sharedMm - ROUNDING
}

/** Pieces of which no two can stand side by side are all above one another. */
function wideRefutation(
  room: Room,
  items: readonly LoadItem[],
  kind: LoadKind,
  share: (item: LoadItem) => number,
): Refutation | undefined {
  const leastMm = (room.reachMm - room.gapMm / 2) / 2
  const wide = items.filter((item) => leastInradius(item, kind) > leastMm)
  const subset = smallestExceeding(wide, wide.map(share), 1)
  if (subset === undefined) return undefined
  return { subset, reason: { code: 'too-many-wide-pieces', params: { pieces: subset.length, roomMm: room.heightMm } } }
}

function volumeRefutation(
  room: Room,
  items: readonly LoadItem[],
  kind: LoadKind,
  share: (item: LoadItem) => number,
): Refutation | undefined {
  const shares = Float64Array.from(items, share)
  const areas = Float64Array.from(items, (item) => leastArea(item, kind, room.gapMm / 2))
  const limitMm2 = room.areaMm2 * (1 + 1e-9)
  for (const feasible of dualFeasible) {
    let total = 0
    for (let i = 0; i < shares.length; i++) total += feasible(shares[i]!) * areas[i]!
    if (total <= limitMm2) continue
    const volumes = areas.map((area, i) => feasible(shares[i]!) * area)
    const subset = smallestExceeding(items, volumes, limitMm2) ?? items.map((item) => item.key)
    const percent = Math.ceil((100 * total) / room.areaMm2)
    return { subset, reason: { code: 'too-much-ware', params: { pieces: subset.length, percent } } }
  }
  return undefined
}

/** Fewest keys whose amounts together exceed the limit, largest first. */
function smallestExceeding(
  items: readonly LoadItem[],
  amounts: ArrayLike<number>,
  limit: number,
): string[] | undefined {
  let total = 0
  for (let i = 0; i < amounts.length; i++) total += amounts[i]!
  if (total <= limit * (1 + 1e-12)) return undefined
  const order = items.map((_, i) => i).sort((a, b) => amounts[b]! - amounts[a]!)
  const subset: string[] = []
  let sum = 0
  for (const i of order) {
    subset.push(items[i]!.key)
    sum += amounts[i]!
    if (sum > limit * (1 + 1e-12)) break
  }
  return subset
}

/** Taken off every share, so that a stack that fits exactly is not refuted by the last digit of a division. */
const ROUNDING = 1e-9

/** Functions f with: shares that sum to at most 1 have values that sum to at most 1. */
const dualFeasible: readonly ((share: number) => number)[] = [
  (share) => share,
  ...[0.5, 0.4, 1 / 3, 0.25, 0.15].map(
    (small) => (share: number) => (share > 1 - small ? 1 : share < small ? 0 : share),
  ),
  ...[1, 2, 3, 4].map((parts) => (share: number) => {
    const scaled = share * (parts + 1)
    return Number.isInteger(scaled) ? share : Math.floor(scaled) / parts
  }),
]

function leastInradius(item: LoadItem, kind: LoadKind): number {
  const upright = outlineOf(item.footprint).inradiusMm
  const { onEdge } = item.stacking
  return kind === 'bisque' && onEdge !== undefined ? Math.min(upright, outlineOf(onEdge.footprint).inradiusMm) : upright
}

function leastArea(item: LoadItem, kind: LoadKind, marginMm: number): number {
  const upright = grownAreaMm2(outlineOf(item.footprint), marginMm)
  const { onEdge } = item.stacking
  if (kind !== 'bisque' || onEdge === undefined) return upright
  return Math.min(upright, grownAreaMm2(outlineOf(onEdge.footprint), marginMm))
}

/** A piece that might be nested in another takes no room of its own for certain. */
function mayVanish(room: Room, item: LoadItem): boolean {
  const [largest, second] = room.hollows
  const own = item.stacking.hollow === undefined ? 0 : outlineOf(item.stacking.hollow.footprint).areaMm2
  return outlineOf(item.footprint).areaMm2 <= (own === largest ? second : largest)
}

function largestHollows(items: readonly LoadItem[]): [number, number] {
  let [largest, second] = [0, 0]
  for (const { stacking } of items) {
    if (stacking.hollow === undefined || stacking.maxAbove < 1) continue
    const area = outlineOf(stacking.hollow.footprint).areaMm2
    if (area > largest) [largest, second] = [area, largest]
    else if (area > second) second = area
  }
  return [largest, second]
}
