import { refutationOfOne } from './onePiece.ts'
import { circleFootprint } from './footprint.ts'
import { chamberBoxMm, joinedRegion } from './arrangements.ts'
import { postFootprint } from './kilnPlan.ts'
import type { PieceSpot } from './moved.ts'
import { angleChoices, outlineOf } from './outline.ts'
import { chamberRegion, intersection, shelfRegion, type Region } from './region.ts'
import { emptyRoomMap, gridOver, openPoints, pointsUpwards, takeRoom } from './roomMap.ts'
import { shapeAt } from './shape.ts'
import { lowestSpot, type Ground } from './spots.ts'
import type { KilnSpace, LeftOut, Load, LoadItem, LoadKind, LoadLevel, Reason } from './types.ts'
import type { Obstacle } from './walls.ts'

/** Candidates that each find a place in a load as it stands, and why the others do not. */
export type StillFits = { readonly spots: readonly PieceSpot[]; readonly leftOut: readonly LeftOut[] }

const ANGLES_PER_TURN = 16

/**
 * Which candidates would still go in a load without moving anything in it, each asked by itself and standing on a
 * shelf, with a spot for it. Reasons: `piece-too-tall` (heightMm, roomMm), `too-heavy` (maxWareKg), `firing-range`
 * (lowC, highC, peakC), `no-room` (levels tried), and those of a piece that no load of the kiln takes.
 * @param items the pieces of the load
 */
export function whatStillFits(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  load: Load,
  candidates: readonly LoadItem[],
): StillFits {
  const inside = insideOf(items, load)
  const levels = load.levels.map((level, i) => levelRoom(kiln, inside, kind, load, level, i))
  const spots: PieceSpot[] = []
  const leftOut: LeftOut[] = []
  for (const candidate of candidates) {
    const found = placeFor(kiln, inside, kind, levels, candidate)
    if ('code' in found) leftOut.push({ key: candidate.key, reason: found })
    else spots.push(found)
  }
  return { spots, leftOut }
}

type LevelRoom = {
  readonly index: number
  readonly level: LoadLevel
  readonly surface: Region
  readonly wholeSurfaces: readonly Region[]
  readonly ground: Ground
  readonly massKg: number
  readonly maxKg: number
}

function insideOf(items: readonly LoadItem[], load: Load): Map<string, LoadItem> {
  const placed = new Set(load.levels.flatMap(({ placements }) => placements.map(({ key }) => key)))
  return new Map(items.filter(({ key }) => placed.has(key)).map((item) => [item.key, item]))
}

function placeFor(
  kiln: KilnSpace,
  inside: ReadonlyMap<string, LoadItem>,
  kind: LoadKind,
  levels: readonly LevelRoom[],
  item: LoadItem,
): PieceSpot | Reason {
  const never = refutationOfOne(kiln, item, kind) ?? heatReason(inside, item) ?? massReason(kiln, inside, item)
  if (never !== undefined) return never
  const tall = levels.filter(({ level }) => level.usableHeightMm >= item.heightMm)
  if (tall.length === 0) {
    const roomMm = Math.max(0, ...levels.map(({ level }) => level.usableHeightMm))
    return { code: 'piece-too-tall', params: { piece: item.key, heightMm: item.heightMm, roomMm } }
  }
  const byWaste = [...tall].sort((a, b) => a.level.usableHeightMm - b.level.usableHeightMm || a.index - b.index)
  for (const room of byWaste) {
    const spot = room.massKg + item.massKg > room.maxKg ? undefined : spotOn(room, item)
    if (spot !== undefined) return spot
  }
  return { code: 'no-room', params: { piece: item.key, levels: tall.length } }
}

function spotOn({ index, surface, wholeSurfaces, ground }: LevelRoom, item: LoadItem): PieceSpot | undefined {
  const outline = outlineOf(item.footprint)
  for (const angleIndex of angleChoices(outline, item.rotation, ANGLES_PER_TURN)) {
    for (const region of item.wholeShelf === true ? wholeSurfaces : [surface, ...wholeSurfaces]) {
      const spot = lowestSpot(shapeAt(outline, angleIndex), region, ground, Infinity)
      if (spot !== undefined) return { key: item.key, level: index, xMm: spot.xMm, yMm: spot.yMm, angleIndex }
    }
  }
  return undefined
}

function heatReason(inside: ReadonlyMap<string, LoadItem>, { firing }: LoadItem): Reason | undefined {
  const ranged = [...inside.values()].flatMap((item) => item.firing ?? [])
  const peakC = Math.max(...ranged.map(({ lowC }) => lowC))
  const mostC = Math.min(...ranged.map(({ highC }) => highC))
  if (firing === undefined || (firing.lowC <= mostC && firing.highC >= peakC)) return undefined
  return { code: 'firing-range', params: { ...firing, peakC } }
}

function massReason(kiln: KilnSpace, inside: ReadonlyMap<string, LoadItem>, item: LoadItem): Reason | undefined {
  const { maxWareKg } = kiln
  const massKg = [...inside.values()].reduce((sum, own) => sum + own.massKg, item.massKg)
  if (maxWareKg === undefined || massKg <= maxWareKg) return undefined
  return { code: 'too-heavy', params: { massKg, maxWareKg } }
}

function levelRoom(
  kiln: KilnSpace,
  inside: ReadonlyMap<string, LoadItem>,
  kind: LoadKind,
  load: Load,
  level: LoadLevel,
  index: number,
): LevelRoom {
  const { clearances, chamber, furniture } = kiln
  const within = chamberRegion(chamber.shape, clearances.wallMm)
  const kinds = level.shelves.flatMap(({ shelfId }) => furniture.shelves.find(({ id }) => id === shelfId) ?? [])
  const shelves = level.shelves.map((shelf, i) => shelfRegion(kinds[i]!.shape, shelf.xMm, shelf.yMm, shelf.angleIndex))
  const wholeSurfaces = shelves.map((shelf) => intersection(shelf, within))
  const joined = level.shelves.length > 1 ? joinedRegion(kinds[0]!, level.shelves) : undefined
  const surface = joined === undefined ? wholeSurfaces[0]! : intersection(joined, within)
  const obstacles = obstaclesOn(kiln, inside, kind, load, level)
  const grid = gridOver(...chamberBoxMm(kiln))
  const room = emptyRoomMap(grid, joined === undefined ? within : surface)
  const points = pointsUpwards(grid, room, 0)
  for (const obstacle of obstacles) takeRoom(grid, room, obstacle)
  const ground = {
    grid,
    room,
    obstacles,
    towardsX: 1,
    towardsY: 0,
    pointsUpwards: points,
    openPoints: openPoints(room, points),
  }
  const massKg = level.placements.reduce((sum, { key }) => sum + (inside.get(key)?.massKg ?? 0), 0)
  const maxKg = kinds.reduce((sum, { maxWareKg }) => sum + (maxWareKg ?? Infinity), 0)
  return { index, level, surface, wholeSurfaces, ground, massKg, maxKg }
}

/** Ware at the height of the level (that of a neighbouring column too), posts, keep-outs. */
function obstaclesOn(
  kiln: KilnSpace,
  inside: ReadonlyMap<string, LoadItem>,
  kind: LoadKind,
  load: Load,
  level: LoadLevel,
): Obstacle[] {
  const { clearances, chamber, furniture } = kiln
  const gapMm = kind === 'glaze' ? clearances.glazeGapMm : clearances.bisqueGapMm
  const toZMm = level.zMm + level.usableHeightMm
  const ware = load.levels.flatMap(({ placements }) =>
    placements.flatMap(({ key, pose, zMm, angleIndex, xMm, yMm }): Obstacle[] => {
      const item = inside.get(key)
      const stood = (pose === 'on-edge' ? item?.stacking.onEdge : undefined) ?? item
      if (stood === undefined || zMm >= toZMm || zMm + stood.heightMm <= level.zMm) return []
      return [{ shape: shapeAt(outlineOf(stood.footprint), angleIndex), xMm, yMm, gapMm }]
    }),
  )
  const posts = load.levels.flatMap((other) =>
    other.posts.flatMap(({ postIds, fromZMm, lengthMm, xMm, yMm }): Obstacle[] => {
      const post = furniture.posts.find(({ id }) => id === postIds[0])
      if (post === undefined || fromZMm >= toZMm || fromZMm + lengthMm <= level.zMm) return []
      return [{ shape: shapeAt(outlineOf(postFootprint(post)), 0), xMm, yMm, gapMm: clearances.postMm }]
    }),
  )
  const keepOuts = chamber.keepOuts.map(({ xMm, yMm, radiusMm }): Obstacle => ({
    shape: shapeAt(outlineOf(circleFootprint(2 * radiusMm)), 0),
    xMm,
    yMm,
    gapMm: clearances.keepOutMm,
  }))
  return [...ware, ...posts, ...keepOuts]
}
