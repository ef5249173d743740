import { shapeAt, type Shape } from '../shape.ts'
import { roomInside } from '../region.ts'
import { newSeparation, separate } from '../separation.ts'
import type { SqueezeTask } from './bed.ts'

type Placed = { readonly shape: Shape; readonly xMm: number; readonly yMm: number }

/** Whether pieces at these stances keep every gap and stay on their floors, by exact distances and nothing forgiven. */
export function areClear(
  { pieces, obstacles, gapMm }: SqueezeTask,
  stances: readonly { readonly xMm: number; readonly yMm: number; readonly angleIndex: number }[],
): boolean {
  const placed = stances.map(({ xMm, yMm, angleIndex }, i): Placed => {
    return { shape: shapeAt(pieces[i]!.outline, angleIndex), xMm, yMm }
  })
  return placed.every((piece, i) => {
    const isOnFloor = piece.shape.hulls.every(
      (hull) => roomInside(pieces[i]!.region, hull, piece.shape.radiusMm, piece.xMm, piece.yMm) >= 0,
    )
    return (
      isOnFloor &&
      obstacles.every((obstacle) => isApart(piece, obstacle, obstacle.gapMm)) &&
      placed.slice(0, i).every((other) => isApart(piece, other, gapMm))
    )
  })
}

function isApart(first: Placed, second: Placed, gapMm: number): boolean {
  const need = first.shape.radiusMm + second.shape.radiusMm + gapMm
  const found = newSeparation()
  return first.shape.hulls.every((own) =>
    second.shape.hulls.every(
      (hull) => separate(own, first.xMm, first.yMm, hull, second.xMm, second.yMm, need, found) >= need,
    ),
  )
}
