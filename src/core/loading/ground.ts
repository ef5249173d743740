/** What stands on a level besides ware, and the room that is left there. */
import { cosOf, sinOf } from './angles.ts'
import type { Column } from './arrangements.ts'
import { circleFootprint } from './footprint.ts'
import type { KilnPlan } from './kilnPlan.ts'
import { oncePer } from './once.ts'
import { outlineOf } from './outline.ts'
import { emptyRoomMap, openPoints, pointsUpwards, takeRoom, type RoomMap } from './roomMap.ts'
import { shapeAt } from './shape.ts'
import type { Ground } from './spots.ts'
import type { Obstacle } from './walls.ts'

/** A level's surface as it is filled. */
export type LevelGround = Ground & {
  readonly room: RoomMap
  readonly obstacles: Obstacle[]
  openPoints: Int32Array
  /** Several levels hold it, so it is copied before anything more is set down. */
  isShared: boolean
}

/** The surface with posts and keep-outs only. @param towards the direction in which ware is to be kept low */
export function groundWithoutWare(
  plan: KilnPlan,
  column: Column,
  isTop: boolean,
  gapMm: number,
  towards: number,
): LevelGround {
  const bare = bareGround(plan, column, isTop, gapMm)
  return {
    grid: column.grid,
    room: bare.room,
    obstacles: bare.obstacles,
    towardsX: cosOf(towards),
    towardsY: sinOf(towards),
    ...pointsOf(bare, column, towards),
    isShared: true,
  }
}

/** The ground with one obstacle more: the same one, unless it is shared. */
export function withObstacle(given: LevelGround, obstacle: Obstacle): LevelGround {
  const ground = given.isShared ? copyOfGround(given) : given
  ground.obstacles.push(obstacle)
  takeRoom(ground.grid, ground.room, obstacle)
  ground.openPoints = openPoints(ground.room, ground.openPoints)
  return ground
}

const copyOfGround = (ground: LevelGround): LevelGround => ({
  ...ground,
  room: ground.room.slice(),
  obstacles: [...ground.obstacles],
  isShared: false,
})

/** A surface without ware; its points in the directions asked for so far. */
type BareGround = {
  readonly room: RoomMap
  readonly obstacles: Obstacle[]
  readonly upwards: Map<number, Pick<Ground, 'pointsUpwards' | 'openPoints'>>
}

const bareGrounds = oncePer<Column, Map<string, BareGround>>(() => new Map())

function bareGround(plan: KilnPlan, column: Column, isTop: boolean, gapMm: number): BareGround {
  const known = bareGrounds(column)
  const kind = `${gapMm} ${isTop}`
  let bare = known.get(kind)
  if (bare === undefined) {
    const obstacles = fixedObstacles(plan, column, isTop, gapMm)
    const room = emptyRoomMap(column.grid, column.surface)
    for (const obstacle of obstacles) takeRoom(column.grid, room, obstacle)
    bare = { room, obstacles, upwards: new Map() }
    known.set(kind, bare)
  }
  return bare
}

function pointsOf(bare: BareGround, column: Column, towards: number): Pick<Ground, 'pointsUpwards' | 'openPoints'> {
  let points = bare.upwards.get(towards)
  if (points === undefined) {
    const upwards = pointsUpwards(column.grid, bare.room, towards)
    points = { pointsUpwards: upwards, openPoints: openPoints(bare.room, upwards) }
    bare.upwards.set(towards, points)
  }
  return points
}

/** Posts and keep-outs; a keep-out counts at every height. */
function fixedObstacles({ kiln, postOutline }: KilnPlan, column: Column, isTop: boolean, gapMm: number): Obstacle[] {
  const { clearances, chamber } = kiln
  const obstacles: Obstacle[] = chamber.keepOuts.map(({ xMm, yMm, radiusMm }) => ({
    shape: shapeAt(outlineOf(circleFootprint(2 * radiusMm)), 0),
    xMm,
    yMm,
    gapMm: clearances.keepOutMm,
  }))
  if (isTop) return obstacles
  const shape = shapeAt(postOutline, 0)
  const postGapMm = Math.max(clearances.postMm, gapMm)
  for (const spot of column.postSpots) obstacles.push({ shape, ...spot, gapMm: postGapMm })
  return obstacles
}
