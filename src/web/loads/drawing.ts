/** A load as outlines to scale, in mm; y points down, as screens have it. */
import {
  ANGLE_STEPS,
  type ChamberShape,
  type Footprint,
  type Load,
  type LoadLevel,
  type Placement,
  type PlacedShelf,
  type ShelfKind,
} from '#core/loading/types.ts'

/** A hull to be filled and stroked by twice `radiusMm` with round joins; `mark` tells a piece in the list. */
export type Outline = { readonly key: string; readonly path: string; readonly radiusMm: number; readonly mark: string }

/** Every hull of a piece where it stands. */
export function pieceOutlines(
  level: LoadLevel,
  footprintOf: (placement: Placement) => Footprint | undefined,
): Outline[] {
  return level.placements.flatMap((placement, i) => {
    const { key, xMm, yMm, angleIndex } = placement
    const footprint = footprintOf(placement)
    if (!footprint) return []
    return footprint.hulls.map((hull, j) => ({
      key: `${key} ${j}`,
      path: pathOf(hull.map((point) => moved(point, xMm, yMm, angleIndex))),
      radiusMm: footprint.radiusMm,
      mark: j === 0 ? String(i + 1) : '',
    }))
  })
}

/** Shelves of a level; unknown kinds are left out. */
export const shelfOutlines = (level: LoadLevel, kinds: readonly ShelfKind[]): Outline[] =>
  level.shelves.flatMap(({ shelfId, xMm, yMm, angleIndex }, i) => {
    const kind = kinds.find(({ id }) => id === shelfId)
    if (!kind) return []
    const corners = shelfCorners(kind.shape).map((point) => moved(point, xMm, yMm, angleIndex))
    return [{ key: `${shelfId} ${i}`, path: pathOf(corners), radiusMm: 0, mark: '' }]
  })

type Corner = { readonly xMm: number; readonly yMm: number }
const shareTurns = { full: 1, half: 1 / 2, third: 1 / 3, quarter: 1 / 4 } as const
const arcSides = 72

function shelfCorners(shape: ShelfKind['shape']): Corner[] {
  if (shape.kind === 'rectangular') return rectangle(shape.lengthMm, shape.widthMm)
  const sides = shape.kind === 'round' ? arcSides : shape.sides
  const turns = shareTurns[shape.share]
  const flatRadiusMm = (shape.kind === 'round' ? shape.diameterMm : shape.acrossFlatsMm) / 2
  const count = Math.max(2, Math.round(arcSides * turns))
  const rim = Array.from({ length: count + 1 }, (_, i) => {
    const angle = (i / count) * turns * 2 * Math.PI
    // A flat faces +x: the rim is as far as the nearest flat is, over the cosine of the angle to its middle.
    const toFlat = angle - Math.round((angle * sides) / (2 * Math.PI)) * ((2 * Math.PI) / sides)
    const radiusMm = shape.kind === 'round' ? flatRadiusMm : flatRadiusMm / Math.cos(toFlat)
    return { xMm: radiusMm * Math.cos(angle), yMm: radiusMm * Math.sin(angle) }
  })
  return shape.share === 'full' ? rim : [{ xMm: 0, yMm: 0 }, ...rim]
}

const rectangle = (lengthMm: number, widthMm: number): Corner[] => [
  { xMm: -lengthMm / 2, yMm: -widthMm / 2 },
  { xMm: lengthMm / 2, yMm: -widthMm / 2 },
  { xMm: lengthMm / 2, yMm: widthMm / 2 },
  { xMm: -lengthMm / 2, yMm: widthMm / 2 },
]

function moved({ xMm, yMm }: Corner, byXMm: number, byYMm: number, angleIndex: number): Corner {
  const angle = (angleIndex / ANGLE_STEPS) * 2 * Math.PI
  return {
    xMm: byXMm + xMm * Math.cos(angle) - yMm * Math.sin(angle),
    yMm: byYMm + xMm * Math.sin(angle) + yMm * Math.cos(angle),
  }
}

const pathOf = (corners: readonly Corner[]): string =>
  `M${corners.map(({ xMm, yMm }) => `${xMm.toFixed(1)} ${(-yMm).toFixed(1)}`).join('L')}Z`

/** How far a placed shelf reaches along the length, mm. */
export function shelfSpan(
  shape: ShelfKind['shape'],
  { xMm, yMm, angleIndex }: Omit<PlacedShelf, 'shelfId'>,
): { readonly fromMm: number; readonly toMm: number } {
  const across = shelfCorners(shape).map((corner) => moved(corner, xMm, yMm, angleIndex).xMm)
  return { fromMm: Math.min(...across), toMm: Math.max(...across) }
}

/** The wall of the chamber from above. */
export function chamberPath(shape: ChamberShape): string {
  if (shape.kind === 'rectangular') return pathOf(rectangle(shape.lengthMm, shape.widthMm))
  if (shape.kind === 'round') return pathOf(shelfCorners({ ...shape, share: 'full' }))
  if (shape.kind === 'many-sided') return pathOf(shelfCorners({ ...shape, share: 'full' }))
  const straightMm = (shape.lengthMm - shape.widthMm) / 2
  const ends = shelfCorners({ kind: 'round', diameterMm: shape.widthMm, share: 'full' })
  return pathOf(ends.map(({ xMm, yMm }) => ({ xMm: xMm + (xMm >= 0 ? straightMm : -straightMm), yMm })))
}

/** The sides of a box that holds the chamber however it is turned, mm. */
export function chamberSize(shape: ChamberShape): { readonly lengthMm: number; readonly widthMm: number } {
  if (shape.kind === 'round') return { lengthMm: shape.diameterMm, widthMm: shape.diameterMm }
  if (shape.kind === 'many-sided') {
    const acrossCornersMm = shape.acrossFlatsMm / Math.cos(Math.PI / shape.sides)
    return { lengthMm: acrossCornersMm, widthMm: acrossCornersMm }
  }
  return shape
}

/** Pieces of a load by the run they belong to. */
export function countsByRun(load: Load): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const { placements } of load.levels)
    for (const { key } of placements) counts.set(runOf(key), (counts.get(runOf(key)) ?? 0) + 1)
  return counts
}

export const runOf = (key: string): string => key.slice(0, key.lastIndexOf('#'))
