import type { BundleMember, Piling } from './bundle.ts'
import { outlineOf } from './outline.ts'
import type { KilnSpace, LoadItem } from './types.ts'
import { roomWithin } from './within.ts'

/** Pieces on and in one another. Member 0 stands on the shelf. */
export type Pile = {
  readonly members: BundleMember[]
  /** Index of what each member stands on or in; -1: the shelf. */
  readonly carriers: number[]
  /** What each member carries through the whole pile. */
  readonly counts: number[]
  readonly massesKg: number[]
  heightMm: number
  /** The member whose hollow is still free, -1: none. */
  inner: number
  /** The member on whose top the next may stand, -1: nothing may. */
  top: number
}

/** Share of the chamber's height that a pile of several may reach; taller ones waste what stands beside them. Our choice. */
const TALLEST_SHARE = 0.45
/** Height that every level loses to shelf and headspace, roughly, mm; what a pile saves. */
const LEVEL_LOSS_MM = 32

/** The pieces in piles, every one in exactly one. Depends on sizes and order alone. */
export function pilesOf(items: readonly LoadItem[], kiln: KilnSpace, piling: Piling): Pile[] {
  const { onPots, others } = lidsAndOthers(items)
  const bySize = [...others].sort((a, b) => areaOf(b) - areaOf(a) || b.heightMm - a.heightMm)
  const tallestMm = kiln.chamber.heightMm * TALLEST_SHARE
  const piles: Pile[] = []
  for (const item of bySize) {
    const lids = onPots.get(item.key) ?? []
    const isEdged = piling === 'piled' && lids.length === 0 && isBetterOnEdge(item, kiln)
    if (piling !== 'apart' && !isEdged && lids.length === 0 && nest(piles, item, kiln.clearances.nestMm)) continue
    if (piling === 'piled' && !isEdged && lids.length === 0 && layFlat(piles, item, tallestMm)) continue
    piles.push(pileFrom(item, isEdged ? 'on-edge' : 'upright', lids))
  }
  return piling === 'piled' ? withRimsMet(piles, tallestMm) : piles
}

/** The first lid of each pot, and everything that is none. */
function lidsAndOthers(items: readonly LoadItem[]): { onPots: Map<string, LoadItem[]>; others: LoadItem[] } {
  const keys = new Set(items.map(({ key }) => key))
  const onPots = new Map<string, LoadItem[]>()
  const others = items.filter((item) => {
    const pot = item.lidOf
    if (pot === undefined || !keys.has(pot) || onPots.has(pot)) return true
    onPots.set(pot, [item])
    return false
  })
  return { onPots, others }
}

function pileFrom(item: LoadItem, pose: 'upright' | 'on-edge', lids: readonly LoadItem[]): Pile {
  const pile: Pile = { members: [], carriers: [], counts: [], massesKg: [], heightMm: 0, inner: -1, top: -1 }
  add(pile, { item, pose, dxMm: 0, dyMm: 0, dzMm: 0, turn: 0 }, -1)
  for (const lid of lids) {
    const onTopOf = { key: item.key, how: 'lid' } as const
    add(pile, { item: lid, pose: 'upright', dxMm: 0, dyMm: 0, dzMm: item.heightMm, turn: 0, onTopOf }, 0)
  }
  if (pose === 'upright' && lids.length === 0) {
    pile.inner = item.stacking.hollow === undefined ? -1 : 0
    pile.top = item.stacking.top === 'none' ? -1 : 0
  }
  return pile
}

function add(pile: Pile, member: BundleMember, carrier: number): void {
  const { item } = member
  pile.members.push(member)
  pile.carriers.push(carrier)
  pile.counts.push(0)
  pile.massesKg.push(0)
  for (let below = carrier; below >= 0; below = pile.carriers[below]!) {
    pile.counts[below]!++
    pile.massesKg[below]! += item.massKg
  }
  const heightMm = member.pose === 'on-edge' ? item.stacking.onEdge!.heightMm : item.heightMm
  pile.heightMm = Math.max(pile.heightMm, member.dzMm + heightMm)
}

/** Whether everything below bears one piece more; sets stay among themselves, so that they can be left out whole. */
function bears(pile: Pile, carrier: number, item: LoadItem): boolean {
  if (pile.members[0]!.item.group !== item.group) return false
  for (let below = carrier; below >= 0; below = pile.carriers[below]!) {
    const { maxAbove, maxMassAboveKg } = pile.members[below]!.item.stacking
    if (pile.counts[below]! + 1 > maxAbove || pile.massesKg[below]! + item.massKg > maxMassAboveKg) return false
  }
  return true
}

/** Sets a piece in the tightest hollow that takes it, if it does not stand out farther than it saves. */
function nest(piles: readonly Pile[], item: LoadItem, nestMm: number): boolean {
  const outline = outlineOf(item.footprint)
  let best: Pile | undefined
  let leastMm = Infinity
  for (const pile of piles) {
    if (pile.inner < 0 || !bears(pile, pile.inner, item)) continue
    const host = pile.members[pile.inner]!
    const hollow = host.item.stacking.hollow!
    const roomMm = roomWithin(outlineOf(hollow.footprint), outline)
    if (roomMm < nestMm || roomMm >= leastMm || roomWithin(outlineOf(host.item.footprint), outline) < 0) continue
    const risesMm = host.dzMm + hollow.floorMm + item.heightMm - pile.heightMm
    if (risesMm > 0 && risesMm * areaOf(pile.members[0]!.item) > 0.7 * areaOf(item) * (item.heightMm + LEVEL_LOSS_MM)) {
      continue
    }
    best = pile
    leastMm = roomMm
  }
  if (best === undefined) return false
  const host = best.members[best.inner]!
  const dzMm = host.dzMm + host.item.stacking.hollow!.floorMm
  const onTopOf = { key: host.item.key, how: 'nested' } as const
  add(best, { item, pose: 'upright', dxMm: 0, dyMm: 0, dzMm, turn: 0, onTopOf }, best.inner)
  best.inner = item.stacking.hollow === undefined ? -1 : best.members.length - 1
  if (best.heightMm > best.members[0]!.item.heightMm) best.top = -1 // a rim above would meet what stands out
  return true
}

/** Lays a piece on the smallest flat top that holds it. */
function layFlat(piles: readonly Pile[], item: LoadItem, tallestMm: number): boolean {
  const outline = outlineOf(item.footprint)
  let best: Pile | undefined
  for (const pile of piles) {
    const host = pile.members[pile.top]
    if (host === undefined || host.item.stacking.top !== 'flat' || !bears(pile, pile.top, item)) continue
    if (host.dzMm + host.item.heightMm + item.heightMm > tallestMm) continue
    if (roomWithin(outlineOf(host.item.footprint), outline) < 0) continue
    if (best === undefined || areaOf(host.item) < areaOf(best.members[best.top]!.item)) best = pile
  }
  if (best === undefined) return false
  const host = best.members[best.top]!
  const dzMm = host.dzMm + host.item.heightMm
  add(
    best,
    { item, pose: 'upright', dxMm: 0, dyMm: 0, dzMm, turn: 0, onTopOf: { key: host.item.key, how: 'flat' } },
    best.top,
  )
  best.inner = -1
  best.top = item.stacking.top === 'flat' ? best.members.length - 1 : -1
  return true
}

/** Sets ware of one outline rim to rim, and further ones foot over foot, as far as the lowest bears it. */
function withRimsMet(piles: readonly Pile[], tallestMm: number): Pile[] {
  const towers: Pile[] = []
  // Piles with something nested come first: they can only stand at the bottom of a tower or on a foot.
  const order = [...piles].sort((a, b) => b.members.length - a.members.length)
  for (const pile of order) {
    const tower = hasRim(pile) ? towers.find((own) => mayTop(own, pile, tallestMm)) : undefined
    if (tower === undefined) towers.push(pile)
    else setOnTop(tower, pile)
  }
  return towers
}

const hasRim = (pile: Pile): boolean => pile.top >= 0 && pile.members[pile.top]!.item.stacking.top === 'rim'

function mayTop(tower: Pile, pile: Pile, tallestMm: number): boolean {
  if (!hasRim(tower) || pile.members.length > 1) return false
  const { item } = pile.members[0]!
  const host = tower.members[tower.top]!
  const areAlike = outlineOf(host.item.footprint) === outlineOf(item.footprint)
  return areAlike && tower.heightMm + item.heightMm <= tallestMm && bears(tower, tower.top, item)
}

/** Every second piece of a tower stands on its rim, the others on their foot. */
function setOnTop(tower: Pile, pile: Pile): void {
  const { item } = pile.members[0]!
  const host = tower.members[tower.top]!
  const dzMm = host.dzMm + host.item.heightMm
  const pose = host.pose === 'inverted' ? 'upright' : 'inverted'
  add(tower, { item, pose, dxMm: 0, dyMm: 0, dzMm, turn: 0, onTopOf: { key: host.item.key, how: 'rim' } }, tower.top)
  tower.inner = -1
  tower.top = tower.members.length - 1
}

/** Whether a flat takes less of the kiln on edge, or only goes in so. */
function isBetterOnEdge(item: LoadItem, kiln: KilnSpace): boolean {
  const { onEdge } = item.stacking
  if (onEdge === undefined || onEdge.heightMm > kiln.chamber.heightMm * TALLEST_SHARE) return false
  const edgeMm3 = outlineOf(onEdge.footprint).areaMm2 * (onEdge.heightMm + LEVEL_LOSS_MM)
  return edgeMm3 < areaOf(item) * (item.heightMm + LEVEL_LOSS_MM)
}

const areaOf = (item: LoadItem): number => outlineOf(item.footprint).areaMm2
