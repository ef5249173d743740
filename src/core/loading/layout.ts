import type { Rng } from '#core/rng.ts'
import type { Arrangement } from './arrangements.ts'
import type { Bundle } from './bundle.ts'
import { groundWithoutWare, withObstacle, type LevelGround } from './ground.ts'
import type { KilnPlan } from './kilnPlan.ts'
import { angleChoices } from './outline.ts'
import { shapeAt, type Shape } from './shape.ts'
import { lowestSpot, type Spot } from './spots.ts'
import { stackOf, type LevelNeed } from './stack.ts'

/** A bundle where it stands. */
export type Stand = { readonly bundle: Bundle; readonly shape: Shape; readonly xMm: number; readonly yMm: number }

/** A shelf level while it is being filled. */
export type Level = {
  readonly column: number
  /** Nothing stands above it, so no posts stand on it. */
  readonly isTop: boolean
  /** The direction in which its ware is kept low, a step of the angle table. */
  readonly towards: number
  stands: Stand[]
  heightMm: number
  usedMm2: number
  massKg: number
  /** Area of the smallest bundle that found no room since anything was last taken off. */
  failedMm2: number
  /** Bundles by outline and freedom for which no room was found since anything was last taken off. */
  full: Set<string>
  /** What its ware leaves free, once asked for. */
  ground: LevelGround | undefined
}

/** A load in the making. `out` holds what found no room. */
export type Layout = { readonly arrangement: Arrangement; levels: Level[]; out: Bundle[] }

/**
 * Of the area of what found no room, the most at which something else is still tried. By trial over 160 loads: a fifth
 * fewer spots are sought and as much ware is placed, whether little or much is tried besides.
 */
const LIKELY_SHARE = 0.93

/** What a packing run needs to know all the time. */
export type Packing = {
  readonly plan: KilnPlan
  readonly gapMm: number
  /** Angles tried in a full turn for pieces that may take any. */
  readonly anglesPerTurn: number
  /** Share of a level's surface, gaps counted, beyond which no room is looked for. */
  readonly fullShare: number
}

/** Sets a bundle down: beneath the height of a level if it can, else raising one, else on a new level. */
export function place(packing: Packing, layout: Layout, bundle: Bundle, rng: Rng): boolean {
  if (!isWithinKilnMass(packing, layout, bundle)) return false
  for (const level of byWaste(layout.levels, bundle.heightMm)) {
    if (level.heightMm < bundle.heightMm && !canRaise(packing, layout, level, bundle.heightMm)) continue
    if (placeOn(packing, layout.arrangement, level, bundle)) return true
  }
  return placeOnNewLevel(packing, layout, bundle, rng)
}

/** Sets a bundle down on one level if there is room, whatever its height. */
export function placeOn(packing: Packing, arrangement: Arrangement, level: Level, bundle: Bundle): boolean {
  const column = arrangement.columns[level.column]!
  const { maxWareKg } = column.shelfKind
  if (level.full.has(bundle.freedom) || bundle.areaMm2 > LIKELY_SHARE * level.failedMm2) return false
  if (level.usedMm2 + bundle.areaMm2 > column.areaMm2 * packing.fullShare) return false
  if (maxWareKg !== undefined && level.massKg + bundle.massKg > maxWareKg * column.shelves.length) return false
  const stand = standFor(packing, arrangement, level, bundle)
  if (stand === undefined) {
    level.full.add(bundle.freedom)
    level.failedMm2 = Math.min(level.failedMm2, bundle.areaMm2)
    return false
  }
  addStand(level, stand, packing.gapMm)
  return true
}

export function addStand(level: Level, stand: Stand, gapMm: number): void {
  level.stands.push(stand)
  if (level.ground !== undefined) level.ground = withStand(level.ground, stand, gapMm)
  level.heightMm = Math.max(level.heightMm, stand.bundle.heightMm)
  level.usedMm2 += stand.bundle.areaMm2
  level.massKg += stand.bundle.massKg
}

/** A level like this one with some of its ware only. */
export function withStands(level: Level, stands: readonly Stand[]): Level {
  const kept = emptyLevel(level.column, level.isTop, level.towards)
  for (const stand of stands) addStand(kept, stand, 0)
  return kept
}

export function copyOf(level: Level): Level {
  if (level.ground !== undefined) level.ground.isShared = true
  return { ...level, stands: [...level.stands], full: new Set(level.full) }
}

export function emptyLevel(column: number, isTop: boolean, towards: number): Level {
  return {
    column,
    isTop,
    towards,
    stands: [],
    heightMm: 0,
    usedMm2: 0,
    massKg: 0,
    failedMm2: Infinity,
    full: new Set(),
    ground: undefined,
  }
}

/** Whether the levels still stack under the lid: with some ware gone, other posts are taken, and those may run out. */
export function closes(packing: Packing, layout: Layout): boolean {
  return stackOf(packing.plan, layout.arrangement, layout.levels) !== undefined
}

const needOf = ({ column, heightMm, isTop }: Level): LevelNeed => ({ column, heightMm, isTop })

/** What is free on a level. */
function groundOf({ plan, gapMm }: Packing, arrangement: Arrangement, level: Level): LevelGround {
  if (level.ground === undefined) {
    let ground = groundWithoutWare(plan, arrangement.columns[level.column]!, level.isTop, gapMm, level.towards)
    for (const stand of level.stands) ground = withStand(ground, stand, gapMm)
    level.ground = ground
  }
  return level.ground
}

const withStand = (ground: LevelGround, { shape, xMm, yMm }: Stand, gapMm: number): LevelGround =>
  withObstacle(ground, { shape, xMm, yMm, gapMm })

function standFor(packing: Packing, arrangement: Arrangement, level: Level, bundle: Bundle): Stand | undefined {
  const column = arrangement.columns[level.column]!
  const surfaces = bundle.wholeShelf ? column.wholeSurfaces : [column.surface]
  const ground = groundOf(packing, arrangement, level)
  let best: Spot | undefined
  let bestShape: Shape | undefined
  for (const angleIndex of angleChoices(bundle.outline, bundle.rotation, packing.anglesPerTurn)) {
    const shape = shapeAt(bundle.outline, angleIndex)
    for (const surface of surfaces) {
      const limit = best?.score ?? Infinity
      const spot = lowestSpot(shape, surface, ground, limit)
      if (spot === undefined) continue
      best = spot
      bestShape = shape
    }
  }
  return best && { bundle, shape: bestShape!, xMm: best.xMm, yMm: best.yMm }
}

function placeOnNewLevel(packing: Packing, layout: Layout, bundle: Bundle, rng: Rng): boolean {
  const { arrangement } = layout
  for (let column = 0; column < arrangement.columns.length; column++) {
    if (!hasShelfLeft(layout, column)) continue
    const isTop = !layout.levels.some((level) => level.column === column && level.isTop)
    const level = emptyLevel(column, isTop, anyDirection(rng))
    const needs = [...layout.levels, { column, heightMm: bundle.heightMm, isTop }]
    if (stackOf(packing.plan, arrangement, needs) === undefined) continue
    if (!placeOn(packing, arrangement, level, bundle)) continue
    layout.levels.push(level)
    return true
  }
  return false
}

/**
 * Directions in which ware is kept low: few, as each has its own order of points to keep, and off the axes, along which
 * boxes would rather stand side by side than lean into a corner (by trial over 160 loads, half a hundredth more ware).
 */
const DIRECTIONS = [60, 300, 420, 660, 780, 1_020, 1_140, 1_380]

export const anyDirection = (rng: Rng): number => DIRECTIONS[rng.int(DIRECTIONS.length)]!

function hasShelfLeft(layout: Layout, column: number): boolean {
  const { shelfKind, shelves } = layout.arrangement.columns[column]!
  let used = 0
  for (const level of layout.levels) {
    const own = layout.arrangement.columns[level.column]!
    if (own.shelfKind === shelfKind) used += own.shelves.length
  }
  return used + shelves.length <= shelfKind.count
}

function canRaise(packing: Packing, layout: Layout, level: Level, heightMm: number): boolean {
  const needs = layout.levels.map((own) => (own === level ? { ...needOf(own), heightMm } : own))
  return stackOf(packing.plan, layout.arrangement, needs) !== undefined
}

function isWithinKilnMass(packing: Packing, layout: Layout, bundle: Bundle): boolean {
  const { maxWareKg } = packing.plan.kiln
  if (maxWareKg === undefined) return true
  return layout.levels.reduce((sum, level) => sum + level.massKg, bundle.massKg) <= maxWareKg
}

/** Levels that waste least height first, then those that need least raising. */
function byWaste(levels: readonly Level[], heightMm: number): Level[] {
  const sorted: Level[] = []
  for (const level of levels) {
    const waste = orderOf(level.heightMm - heightMm)
    let at = sorted.length
    for (; at > 0 && orderOf(sorted[at - 1]!.heightMm - heightMm) > waste; at--) sorted[at] = sorted[at - 1]!
    sorted[at] = level
  }
  return sorted
}

const orderOf = (spareMm: number): number => (spareMm >= 0 ? spareMm : 1e6 - spareMm)
