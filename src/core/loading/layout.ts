import { cosOf, sinOf } from './angles.ts'
import { ANGLE_STEPS } from './types.ts'
import type { Bundle } from './bundle.ts'
import type { Arrangement, KilnPlan } from './kilnPlan.ts'
import { angleChoices } from './outline.ts'
import type { Rng } from '#core/rng.ts'
import { circleFootprint } from './footprint.ts'
import { outlineOf } from './outline.ts'
import { shapeAt, type Shape } from './shape.ts'
import { lowestSpot, type Obstacle, type Spot } from './spots.ts'
import { stackOf, type LevelNeed } from './stack.ts'

/** A bundle where it stands. */
export type Stand = { readonly bundle: Bundle; readonly shape: Shape; readonly xMm: number; readonly yMm: number }

/** A shelf level while it is being filled. */
export type Level = {
  readonly column: number
  /** Nothing stands above it, so no posts stand on it. */
  readonly isTop: boolean
  /** The direction in which its ware is kept low. */
  readonly towardsX: number
  readonly towardsY: number
  stands: Stand[]
  heightMm: number
  usedMm2: number
  massKg: number
  /** Reach of the smallest freely turning bundle that found no room; what holds a disc of it finds none either. */
  fullReachMm: number
  /** Bundles by outline and freedom for which no room was found since anything was last taken off. */
  full: Set<string>
}

/** A load in the making. `out` holds what found no room. */
export type Layout = { readonly arrangement: Arrangement; levels: Level[]; out: Bundle[] }

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
  const byWaste = layout.levels
    .map((level) => ({ level, spareMm: level.heightMm - bundle.heightMm }))
    .sort((a, b) => orderOf(a.spareMm) - orderOf(b.spareMm))
  for (const { level, spareMm } of byWaste) {
    if (spareMm < 0 && !canRaise(packing, layout, level, bundle.heightMm)) continue
    if (placeOn(packing, layout.arrangement, level, bundle)) return true
  }
  return placeOnNewLevel(packing, layout, bundle, rng)
}

/** Sets a bundle down on one level if there is room, whatever its height. */
export function placeOn(packing: Packing, arrangement: Arrangement, level: Level, bundle: Bundle): boolean {
  const column = arrangement.columns[level.column]!
  const id = `${bundle.outline.id}${bundle.rotation}${bundle.wholeShelf ? 'w' : ''}`
  const { maxWareKg } = column.shelfKind
  if (level.full.has(id) || bundle.outline.inradiusMm >= level.fullReachMm) return false
  if (level.usedMm2 + bundle.areaMm2 > column.areaMm2 * packing.fullShare) return false
  if (maxWareKg !== undefined && level.massKg + bundle.massKg > maxWareKg * column.shelves.length) return false
  const stand = standFor(packing, arrangement, level, bundle)
  if (stand === undefined) {
    level.full.add(id)
    const isFree = bundle.outline.symmetry === 'every' && !bundle.wholeShelf
    if (isFree) level.fullReachMm = Math.min(level.fullReachMm, bundle.outline.reachMm)
    return false
  }
  addStand(level, stand)
  return true
}

export function addStand(level: Level, stand: Stand): void {
  level.stands.push(stand)
  level.heightMm = Math.max(level.heightMm, stand.bundle.heightMm)
  level.usedMm2 += stand.bundle.areaMm2
  level.massKg += stand.bundle.massKg
}

/** A level like this one with some of its ware only. */
export function withStands(level: Level, stands: readonly Stand[]): Level {
  const { column, isTop, towardsX, towardsY } = level
  const kept = emptyLevel(column, isTop, towardsX, towardsY)
  for (const stand of stands) addStand(kept, stand)
  return kept
}

export function emptyLevel(column: number, isTop: boolean, towardsX: number, towardsY: number): Level {
  return {
    column,
    isTop,
    towardsX,
    towardsY,
    stands: [],
    heightMm: 0,
    usedMm2: 0,
    massKg: 0,
    fullReachMm: Infinity,
    full: new Set(),
  }
}

export function needsOf(levels: readonly Level[]): LevelNeed[] {
  return levels.map(({ column, heightMm, isTop }) => ({ column, heightMm, isTop }))
}

/** What stands on a level and must be kept clear of: ware, posts of the level above, keep-outs. */
export function obstaclesOf(packing: Packing, arrangement: Arrangement, level: Level): Obstacle[] {
  const obstacles = fixedObstacles(packing.plan, arrangement, level.column, level.isTop, packing.gapMm)
  for (const { shape, xMm, yMm } of level.stands) obstacles.push({ shape, xMm, yMm, gapMm: packing.gapMm })
  return obstacles
}

/** Posts and keep-outs; a keep-out counts at every height. */
export function fixedObstacles(
  plan: KilnPlan,
  arrangement: Arrangement,
  column: number,
  isTop: boolean,
  gapMm: number,
): Obstacle[] {
  const { clearances, chamber } = plan.kiln
  const obstacles: Obstacle[] = chamber.keepOuts.map(({ xMm, yMm, radiusMm }) => ({
    shape: shapeAt(outlineOf(circleFootprint(2 * radiusMm)), 0),
    xMm,
    yMm,
    gapMm: clearances.keepOutMm,
  }))
  if (isTop) return obstacles
  const shape = shapeAt(plan.postOutline, 0)
  const postGapMm = Math.max(clearances.postMm, gapMm)
  for (const spot of arrangement.columns[column]!.postSpots) obstacles.push({ shape, ...spot, gapMm: postGapMm })
  return obstacles
}

function standFor(packing: Packing, arrangement: Arrangement, level: Level, bundle: Bundle): Stand | undefined {
  const column = arrangement.columns[level.column]!
  const surfaces = bundle.wholeShelf ? column.wholeSurfaces : [column.surface]
  const obstacles = obstaclesOf(packing, arrangement, level)
  let best: (Spot & { readonly shape: Shape }) | undefined
  for (const angleIndex of angleChoices(bundle.outline, bundle.rotation, packing.anglesPerTurn)) {
    const shape = shapeAt(bundle.outline, angleIndex)
    for (const surface of surfaces) {
      const limit = best?.score ?? Infinity
      const spot = lowestSpot(shape, surface, obstacles, level.towardsX, level.towardsY, limit)
      if (spot !== undefined) best = { ...spot, shape }
    }
  }
  return best && { bundle, shape: best.shape, xMm: best.xMm, yMm: best.yMm }
}

function placeOnNewLevel(packing: Packing, layout: Layout, bundle: Bundle, rng: Rng): boolean {
  const { arrangement } = layout
  for (let column = 0; column < arrangement.columns.length; column++) {
    if (!hasShelfLeft(layout, column)) continue
    const isTop = !layout.levels.some((level) => level.column === column && level.isTop)
    const angle = rng.int(ANGLE_STEPS)
    const level = emptyLevel(column, isTop, cosOf(angle), sinOf(angle))
    const needs = [...needsOf(layout.levels), { column, heightMm: bundle.heightMm, isTop }]
    if (stackOf(packing.plan, arrangement, needs) === undefined) continue
    if (!placeOn(packing, arrangement, level, bundle)) continue
    layout.levels.push(level)
    return true
  }
  return false
}

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
  const needs = layout.levels.map((own) => ({
    column: own.column,
    isTop: own.isTop,
    heightMm: own === level ? heightMm : own.heightMm,
  }))
  return stackOf(packing.plan, layout.arrangement, needs) !== undefined
}

function isWithinKilnMass(packing: Packing, layout: Layout, bundle: Bundle): boolean {
  const { maxWareKg } = packing.plan.kiln
  if (maxWareKg === undefined) return true
  return layout.levels.reduce((sum, level) => sum + level.massKg, bundle.massKg) <= maxWareKg
}

/** Levels that waste least height first, then those that need least raising. */
const orderOf = (spareMm: number): number => (spareMm >= 0 ? spareMm : 1e6 - spareMm)
