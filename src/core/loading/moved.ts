import { ANGLE_STEPS, type Load, type LoadLevel, type Placement } from './types.ts'

/** A piece on a shelf level of a load. */
export type PieceSpot = {
  readonly key: string
  /** Index of the level in the load. */
  readonly level: number
  readonly xMm: number
  readonly yMm: number
  readonly angleIndex: number
}

/**
 * The load with one piece set down on a shelf at another spot, and everything that stands on or in it with it; a piece
 * that stood on another is taken off it and put on its foot.
 * @returns the load, and the keys of all that moved
 * @throws RangeError when the load has no such piece or level
 */
export function withPieceMoved(load: Load, spot: PieceSpot): { load: Load; moved: ReadonlySet<string> } {
  const placements = load.levels.flatMap((level) => level.placements)
  const piece = placements.find(({ key }) => key === spot.key)
  const target = load.levels[spot.level]
  if (piece === undefined || target === undefined) throw new RangeError(`no piece ${spot.key} or level ${spot.level}`)
  const moved = pileOn(placements, spot.key)
  const inPile = placements.filter(({ key }) => moved.has(key)).map((own) => carriedAlong(own, piece, target, spot))
  const levels = load.levels.map((level, i): LoadLevel => {
    const kept = level.placements.filter(({ key }) => !moved.has(key))
    return { ...level, placements: i === spot.level ? [...kept, ...inPile] : kept }
  })
  return { load: { ...load, levels }, moved }
}

function pileOn(placements: readonly Placement[], base: string): Set<string> {
  const pile = new Set([base])
  for (let before = 0; before !== pile.size;) {
    before = pile.size
    for (const { key, onTopOf } of placements) if (onTopOf !== undefined && pile.has(onTopOf.key)) pile.add(key)
  }
  return pile
}

function carriedAlong(own: Placement, piece: Placement, target: LoadLevel, spot: PieceSpot): Placement {
  if (own === piece) {
    const { onTopOf: _, ...free } = own
    const pose = own.pose === 'inverted' ? 'upright' : own.pose
    return { ...free, pose, xMm: spot.xMm, yMm: spot.yMm, angleIndex: spot.angleIndex, zMm: target.zMm }
  }
  const turn = spot.angleIndex - piece.angleIndex
  const angle = (2 * Math.PI * turn) / ANGLE_STEPS
  const [dx, dy] = [own.xMm - piece.xMm, own.yMm - piece.yMm]
  return {
    ...own,
    xMm: spot.xMm + dx * Math.cos(angle) - dy * Math.sin(angle),
    yMm: spot.yMm + dx * Math.sin(angle) + dy * Math.cos(angle),
    angleIndex: (((own.angleIndex + turn) % ANGLE_STEPS) + ANGLE_STEPS) % ANGLE_STEPS,
    zMm: target.zMm + own.zMm - piece.zMm,
  }
}
