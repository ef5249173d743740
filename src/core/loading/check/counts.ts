import { breach, isSound, type Standing } from './pieces.ts'
import type { LoadBreach } from './breach.ts'
import type { KilnSpace, Load, LoadItem } from '../types.ts'

/** Every piece once, must-go pieces in, groups whole, lids with pots, turns allowed, firing ranges in common. */
export function pieceBreaches(items: readonly LoadItem[], load: Load, standing: readonly Standing[]): LoadBreach[] {
  const known = new Map(items.map((item) => [item.key, item]))
  const placements = load.levels.flatMap((level) => level.placements)
  const counts = new Map<string, number>()
  for (const { key } of placements) counts.set(key, (counts.get(key) ?? 0) + 1)
  const out = new Set(load.leftOut.map(({ key }) => key))
  const breaches: LoadBreach[] = []
  for (const placement of placements) {
    if (!known.has(placement.key)) breaches.push(breach('unknown-piece', { piece: placement.key }))
    if (!isSound(placement)) breaches.push(breach('bad-number', { piece: placement.key }))
  }
  for (const [piece, times] of counts) if (times > 1) breaches.push(breach('piece-twice', { piece, times }))
  for (const item of items) {
    const isIn = counts.has(item.key)
    if (item.mustGo && !isIn) breaches.push(breach('must-go-missing', { piece: item.key }))
    if (!item.mustGo && !isIn && !out.has(item.key)) breaches.push(breach('piece-unaccounted', { piece: item.key }))
    if (isIn && out.has(item.key)) breaches.push(breach('left-out-and-placed', { piece: item.key }))
  }
  return [...breaches, ...groupBreaches(items, counts), ...turnBreaches(standing), ...firingBreaches(standing)]
}

function groupBreaches(items: readonly LoadItem[], counts: ReadonlyMap<string, number>): LoadBreach[] {
  const groups = new Map<string, LoadItem[]>()
  for (const item of items) {
    if (item.group !== undefined) groups.set(item.group, [...(groups.get(item.group) ?? []), item])
  }
  return [...groups].flatMap(([group, members]) => {
    const isIn = members.filter((item) => counts.has(item.key)).length
    return isIn === 0 || isIn === members.length ? [] : [breach('group-split', { group, isIn, of: members.length })]
  })
}

/** Turns that a design does not allow. */
export function turnBreaches(standing: readonly Standing[]): LoadBreach[] {
  return standing.flatMap(({ item, placement }) => {
    const step = { any: 1, quarter: 360, half: 720, none: 1_440 }[item.rotation]
    const isAllowed = placement.angleIndex % step === 0
    return isAllowed ? [] : [breach('rotation-not-allowed', { piece: item.key, angleIndex: placement.angleIndex })]
  })
}

function firingBreaches(standing: readonly Standing[]): LoadBreach[] {
  const ranged = standing.filter(({ item }) => item.firing !== undefined)
  const lowC = Math.max(...ranged.map(({ item }) => item.firing!.lowC))
  const highC = Math.min(...ranged.map(({ item }) => item.firing!.highC))
  return lowC > highC ? [breach('firing-ranges-apart', { lowC, highC })] : []
}

/** Ware on a shelf and in the kiln, against what they carry. */
export function massBreaches(kiln: KilnSpace, load: Load, standing: readonly Standing[]): LoadBreach[] {
  const breaches: LoadBreach[] = []
  const kinds = new Map(kiln.furniture.shelves.map((kind) => [kind.id, kind]))
  load.levels.forEach((level, i) => {
    const limits = level.shelves.map((shelf) => kinds.get(shelf.shelfId)?.maxWareKg ?? Infinity)
    const limitKg = limits.reduce((sum, limit) => sum + limit, 0)
    const massKg = standing.filter((piece) => piece.level === i).reduce((sum, { item }) => sum + item.massKg, 0)
    if (massKg > limitKg + 1e-9) breaches.push(breach('shelf-too-heavy', { level: i, massKg, limitKg }))
  })
  const massKg = standing.reduce((sum, { item }) => sum + item.massKg, 0)
  const limitKg = kiln.maxWareKg ?? Infinity
  if (massKg > limitKg + 1e-9) breaches.push(breach('kiln-too-heavy', { massKg, limitKg }))
  return breaches
}
