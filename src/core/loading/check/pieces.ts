import { boxOf, placed, type Placed } from './geometry.ts'
import type { LoadBreach, LoadBreachCode } from './breach.ts'
import type { Load, LoadItem, Placement } from '../types.ts'

/** A piece as it stands in a load. */
export type Standing = {
  readonly item: LoadItem
  readonly placement: Placement
  /** Index of its level in the load. */
  readonly level: number
  readonly outline: Placed
  readonly box: ReturnType<typeof boxOf>
  readonly fromZMm: number
  readonly toZMm: number
}

export function breach(code: LoadBreachCode, params: Record<string, string | number>): LoadBreach {
  return { code, params }
}

/** Every placement of a known piece with sound numbers. */
export function standingPieces(items: readonly LoadItem[], load: Load): Standing[] {
  const byKey = new Map(items.map((item) => [item.key, item]))
  return load.levels.flatMap((level, i) =>
    level.placements.flatMap((placement) => {
      const item = byKey.get(placement.key)
      return item === undefined || !isSound(placement) ? [] : [standing(item, placement, i)]
    }),
  )
}

export const isSound = ({ xMm, yMm, zMm, angleIndex }: Placement): boolean =>
  Number.isFinite(xMm) && Number.isFinite(yMm) && Number.isFinite(zMm) && Number.isInteger(angleIndex)

function standing(item: LoadItem, placement: Placement, level: number): Standing {
  const { xMm, yMm, zMm, angleIndex, pose } = placement
  const onEdge = pose === 'on-edge' ? item.stacking.onEdge : undefined
  const outline = placed(onEdge?.footprint ?? item.footprint, xMm, yMm, angleIndex)
  const toZMm = zMm + (onEdge?.heightMm ?? item.heightMm)
  return { item, placement, level, outline, box: boxOf(outline), fromZMm: zMm, toZMm }
}

/** What a piece stands on, and what that stands on, down to the shelf; a ring of pieces ends where it closes. */
export function beneath(piece: Standing, byKey: ReadonlyMap<string, Standing>): Standing[] {
  const chain: Standing[] = []
  for (let next = carrier(piece, byKey); next !== undefined && !chain.includes(next) && next !== piece;) {
    chain.push(next)
    next = carrier(next, byKey)
  }
  return chain
}

export const carrier = (piece: Standing, byKey: ReadonlyMap<string, Standing>): Standing | undefined =>
  piece.placement.onTopOf && byKey.get(piece.placement.onTopOf.key)
