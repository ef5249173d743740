import type { Bundle } from './bundle.ts'
import { cosOf, sinOf, stepOf } from './angles.ts'
import type { Layout, Level, Packing } from './layout.ts'
import { stackOf, type StackedLevel } from './stack.ts'
import type { LeftOut, Load, LoadKind, LoadLevel, Placement, PlacedPost } from './types.ts'

/** The finished load: levels in their stack with real posts, pieces at their heights. Undefined when it does not close. */
export function assembledLoad(
  packing: Packing,
  layout: Layout,
  kind: LoadKind,
  leftOut: readonly LeftOut[],
): Load | undefined {
  const levels = layout.levels.filter((level) => level.stands.length > 0)
  const stacks = stackOf(packing.plan, layout.arrangement, levels)
  if (stacks === undefined) return undefined
  const assembled = stacks.flatMap((stack) =>
    stack.map((stacked, position) => loadLevel(packing, layout, levels[stacked.level]!, stacked, stack[position + 1])),
  )
  assembled.sort((a, b) => a.zMm - b.zMm) // stable: columns keep their order at one height
  return { kind, levels: assembled, leftOut }
}

function loadLevel(
  packing: Packing,
  layout: Layout,
  level: Level,
  stacked: StackedLevel,
  above: StackedLevel | undefined,
): LoadLevel {
  const { chamber, clearances } = packing.plan.kiln
  const column = layout.arrangement.columns[level.column]!
  const { zMm, pile } = stacked
  const { thicknessMm } = column.shelfKind
  const fromZMm = zMm - thicknessMm - pile.lengthMm
  const posts: PlacedPost[] = column.postSpots.map(({ xMm, yMm }) => ({
    postIds: pile.posts.map((post) => post.id),
    xMm,
    yMm,
    fromZMm,
    lengthMm: pile.lengthMm,
  }))
  const pitchMm = (above?.zMm ?? chamber.heightMm) - zMm
  const usableHeightMm =
    above === undefined ? pitchMm - clearances.lidMm : pitchMm - thicknessMm - clearances.headspaceMm
  return {
    shelves: column.shelves,
    posts,
    zMm,
    pitchMm,
    usableHeightMm,
    placements: level.stands.flatMap((stand) =>
      placementsOf(stand.bundle, stand.xMm, stand.yMm, stand.shape.angleIndex, zMm),
    ),
  }
}

function placementsOf(bundle: Bundle, xMm: number, yMm: number, angleIndex: number, zMm: number): Placement[] {
  return bundle.members.map(({ item, pose, dxMm, dyMm, turn, dzMm, onTopOf }) => ({
    key: item.key,
    xMm: xMm + cosOf(angleIndex) * dxMm - sinOf(angleIndex) * dyMm,
    yMm: yMm + sinOf(angleIndex) * dxMm + cosOf(angleIndex) * dyMm,
    angleIndex: stepOf(angleIndex + turn),
    zMm: zMm + dzMm,
    pose,
    ...(onTopOf && { onTopOf }),
  }))
}
