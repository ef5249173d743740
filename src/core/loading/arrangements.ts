/** Ways to furnish a kiln: which shelves lie where on a level. */
import { directionOf } from './angles.ts'
import { chamberRegion, intersection, roomInside, shelfRegion, shrunk, type Region } from './region.ts'
import { gridOver, type Grid } from './roomMap.ts'
import { edgePoints, regionAreaMm2, tripodUnder } from './tripod.ts'
import { ANGLE_STEPS, type KilnSpace, type PlacedShelf, type Point, type ShelfKind } from './types.ts'

/** A stack of shelf levels above one another: one shelf a level, or several that lie joined at one height. */
export type Column = {
  readonly shelfKind: ShelfKind
  readonly shelves: readonly PlacedShelf[]
  readonly shelfRegions: readonly Region[]
  /** Where pieces may stand: on the shelves and clear of the wall. */
  readonly surface: Region
  /** The same for pieces that may not stand across a joint: one a shelf. */
  readonly wholeSurfaces: readonly Region[]
  readonly postSpots: readonly Point[]
  /** Raster over the chamber, on which the room of a level is kept. */
  readonly grid: Grid
  /** Rough area of the surface, to compare arrangements and to skip levels that are full. */
  readonly areaMm2: number
}

/** One way of furnishing the kiln. */
export type Arrangement = { readonly columns: readonly Column[] }

/** Those of most surface first. */
export function arrangementsOf(kiln: KilnSpace): Arrangement[] {
  const arrangements = kiln.furniture.shelves.flatMap((kind) =>
    layoutsOf(kiln, kind).flatMap((shelves) => {
      const columns = columnsOf(kiln, kind, shelves)
      const joined = shelves.length > 1 && columns !== undefined ? joinedColumn(kiln, kind, shelves) : undefined
      return [...(columns ? [{ columns }] : []), ...(joined ? [{ columns: [joined] }] : [])]
    }),
  )
  const areaOf = (arrangement: Arrangement): number => arrangement.columns.reduce((sum, c) => sum + c.areaMm2, 0)
  return [...arrangements, ...betweenRoundEnds(kiln)].sort(
    (a, b) => areaOf(b) - areaOf(a) || a.columns.length - b.columns.length,
  )
}

/** Halves in the round ends of an oval chamber, rectangles between them. */
function betweenRoundEnds(kiln: KilnSpace): Arrangement[] {
  const endMm = straightHalfMm(kiln)
  const halves = kiln.furniture.shelves.filter(({ shape }) => shape.kind !== 'rectangular' && shape.share === 'half')
  const rectangles = kiln.furniture.shelves.filter(({ shape }) => shape.kind === 'rectangular')
  if (endMm === 0) return []
  return halves.flatMap((half) => {
    const ends = columnsOf(kiln, half, halvesAtEnds(half, endMm))
    if (ends === undefined) return []
    return rectangles.flatMap((rectangle) =>
      rectangleLayouts(kiln, rectangle, 2 * endMm).flatMap((shelves) => {
        const middle = columnsOf(kiln, rectangle, shelves)
        return middle === undefined ? [] : [{ columns: [...ends, ...middle] }]
      }),
    )
  })
}

/** A column for each shelf; undefined when the stock or the chamber does not allow all of them. */
function columnsOf(kiln: KilnSpace, kind: ShelfKind, shelves: readonly PlacedShelf[]): Column[] | undefined {
  if (shelves.length > kind.count || !shelves.every((shelf) => fitsChamber(kiln, kind, shelf))) return undefined
  const jointMm = shelves.length > 1 || straightHalfMm(kiln) > 0 ? kiln.clearances.glazeGapMm / 2 : 0
  const columns = shelves.map((shelf) => columnOf(kiln, kind, [shelf], jointMm)).filter((c) => c !== undefined)
  return columns.length === shelves.length ? columns : undefined
}

/** Half the length of an oval chamber's straight middle; 0 for other shapes. */
function straightHalfMm({ chamber: { shape } }: KilnSpace): number {
  return shape.kind === 'oval' ? Math.max(0, (shape.lengthMm - shape.widthMm) / 2) : 0
}

/** Places for the shelves of one kind at one height. */
function layoutsOf(kiln: KilnSpace, kind: ShelfKind): PlacedShelf[][] {
  const { shape } = kind
  if (shape.kind === 'rectangular') return rectangleLayouts(kiln, kind, Infinity)
  const parts = { full: 1, half: 2, third: 3, quarter: 4 }[shape.share]
  const around = (from: number): PlacedShelf[] =>
    Array.from({ length: parts }, (_, k) => shelfAt(kind, 0, 0, from + k / parts))
  const endMm = straightHalfMm(kiln)
  const layouts = [around(0)]
  if (parts === 2) layouts.push(around(1 / 4))
  if (endMm > 0 && parts === 2) layouts.push(halvesAtEnds(kind, endMm))
  if (endMm > 0 && parts === 1) layouts.push([shelfAt(kind, -endMm, 0, 0), shelfAt(kind, endMm, 0, 0)])
  return layouts.filter((shelves) => areDisjoint(kind, shelves))
}

const shelfAt = ({ id }: ShelfKind, xMm: number, yMm: number, turn: number): PlacedShelf => ({
  shelfId: id,
  xMm,
  yMm,
  angleIndex: Math.round(turn * ANGLE_STEPS),
})

const halvesAtEnds = (kind: ShelfKind, endMm: number): PlacedShelf[] => [
  shelfAt(kind, -endMm, 0, 1 / 4),
  shelfAt(kind, endMm, 0, 3 / 4),
]

/** Grids of a rectangular shelf, lengthwise and crosswise, no longer than `mostMm` along the kiln. */
function rectangleLayouts(kiln: KilnSpace, kind: ShelfKind, mostMm: number): PlacedShelf[][] {
  const { shape } = kind
  if (shape.kind !== 'rectangular') return []
  return [0, 1 / 4].flatMap((turn) => {
    const [length, width] = turn === 0 ? [shape.lengthMm, shape.widthMm] : [shape.widthMm, shape.lengthMm]
    return length > mostMm ? [] : [gridOf(kiln, kind, length, width, mostMm).map(([x, y]) => shelfAt(kind, x, y, turn))]
  })
}

/** The largest grid of rectangles the chamber's bounding box and the stock allow, at most 3 by 3. */
function gridOf(
  kiln: KilnSpace,
  kind: ShelfKind,
  lengthMm: number,
  widthMm: number,
  mostMm: number,
): [number, number][] {
  const [roomX, roomY] = chamberBoxMm(kiln)
  const across = Math.min(3, Math.floor(Math.min(roomX, mostMm) / lengthMm))
  const along = Math.min(3, Math.floor(roomY / widthMm))
  const grids: [number, number][][] = []
  for (let nx = 1; nx <= across; nx++) {
    for (let ny = 1; ny <= along; ny++) {
      const places: [number, number][] = []
      for (let i = 0; i < nx; i++) {
        for (let j = 0; j < ny; j++) places.push([(i - (nx - 1) / 2) * lengthMm, (j - (ny - 1) / 2) * widthMm])
      }
      const areInside = places.every(([xMm, yMm]) => {
        const half = [lengthMm / 2, widthMm / 2] as const
        const corners = Float64Array.of(-half[0], -half[1], half[0], -half[1], half[0], half[1], -half[0], half[1])
        return roomInside(chamberRegion(kiln.chamber.shape, 0), corners, 0, xMm, yMm) >= 0
      })
      if (places.length <= kind.count && areInside) grids.push(places)
    }
  }
  return grids.sort((a, b) => b.length - a.length)[0] ?? [[0, 0]]
}

/** Length and width of the box around the chamber. */
export function chamberBoxMm(kiln: KilnSpace): [number, number] {
  const { shape } = kiln.chamber
  switch (shape.kind) {
    case 'round':
      return [shape.diameterMm, shape.diameterMm]
    case 'many-sided':
      return [shape.acrossFlatsMm, shape.acrossFlatsMm]
    default:
      return [shape.lengthMm, shape.widthMm]
  }
}

function areDisjoint(kind: ShelfKind, shelves: readonly PlacedShelf[]): boolean {
  const { shape } = kind
  if (shape.kind === 'rectangular' || shape.share !== 'full' || shelves.length < 2) return true
  const width = shape.kind === 'round' ? shape.diameterMm : shape.acrossFlatsMm / Math.cos(Math.PI / shape.sides)
  return Math.abs(shelves[1]!.xMm - shelves[0]!.xMm) >= width
}

function fitsChamber(kiln: KilnSpace, kind: ShelfKind, shelf: PlacedShelf): boolean {
  const region = shelfRegion(kind.shape, shelf.xMm, shelf.yMm, shelf.angleIndex)
  const chamber = chamberRegion(kiln.chamber.shape, 0)
  const edge = edgePoints(region, middleOf(kind, shelf), 720)
  return edge.every((p) => roomInside(chamber, Float64Array.of(p.xMm, p.yMm), 0, 0, 0) > -1e-6)
}

/** @param jointMm kept free at straight edges, beyond which another column's ware may stand at the same height */
function columnOf(
  kiln: KilnSpace,
  kind: ShelfKind,
  shelves: readonly PlacedShelf[],
  jointMm: number,
): Column | undefined {
  const inside = chamberRegion(kiln.chamber.shape, kiln.clearances.wallMm)
  const regions = shelves.map((shelf) => shelfRegion(kind.shape, shelf.xMm, shelf.yMm, shelf.angleIndex))
  const postSpots = shelves.flatMap((shelf, i) => tripodUnder(kiln, regions[i]!, middleOf(kind, shelf)))
  const wholeSurfaces = regions.map((region) => intersection(withinEdges(region, jointMm), inside))
  if (postSpots.length < 3 * shelves.length) return undefined
  const areaMm2 = wholeSurfaces.reduce((sum, r, i) => sum + regionAreaMm2(r, middleOf(kind, shelves[i]!)), 0)
  return {
    shelfKind: kind,
    shelves,
    shelfRegions: regions,
    surface: wholeSurfaces[0]!,
    wholeSurfaces,
    postSpots,
    grid: gridOver(...chamberBoxMm(kiln)),
    areaMm2,
  }
}

/** The region less a margin at its straight edges. */
function withinEdges(region: Region, marginMm: number): Region {
  return { capsules: region.capsules, planes: shrunk(region, marginMm).planes }
}

/** Shelves of one level side by side, when together they make a convex surface: the whole round, or one rectangle. */
function joinedColumn(kiln: KilnSpace, kind: ShelfKind, shelves: readonly PlacedShelf[]): Column | undefined {
  const column = columnOf(kiln, kind, shelves, 0)
  const region = joinedRegion(kind, shelves)
  if (column === undefined || region === undefined) return undefined
  const inside = chamberRegion(kiln.chamber.shape, kiln.clearances.wallMm)
  return { ...column, surface: intersection(region, inside) }
}

/** The convex surface that shelves side by side make together, if they do. */
export function joinedRegion(kind: ShelfKind, shelves: readonly PlacedShelf[]): Region | undefined {
  const { shape } = kind
  if (shape.kind === 'rectangular') {
    const xs = shelves.map((shelf) => shelf.xMm)
    const ys = shelves.map((shelf) => shelf.yMm)
    const isTurned = shelves[0]!.angleIndex !== 0
    const [length, width] = isTurned ? [shape.widthMm, shape.lengthMm] : [shape.lengthMm, shape.widthMm]
    const spanX = Math.max(...xs) - Math.min(...xs) + length
    const spanY = Math.max(...ys) - Math.min(...ys) + width
    return shelfRegion({ kind: 'rectangular', lengthMm: spanX, widthMm: spanY, share: 'full' }, 0, 0, 0)
  }
  const first = shelves[0]!
  const isOneRound = shelves.every((shelf) => shelf.xMm === first.xMm && shelf.yMm === first.yMm)
  return isOneRound ? shelfRegion({ ...shape, share: 'full' }, first.xMm, first.yMm, first.angleIndex) : undefined
}

/** A point well inside the shelf, near its centroid. */
function middleOf(kind: ShelfKind, shelf: PlacedShelf): Point {
  const { shape } = kind
  if (shape.kind === 'rectangular' || shape.share === 'full') return { xMm: shelf.xMm, yMm: shelf.yMm }
  const wide = shape.kind === 'round' ? shape.diameterMm : shape.acrossFlatsMm
  const wedge = { half: 1 / 2, third: 1 / 3, quarter: 1 / 4 }[shape.share]
  const outMm = (wide / 3) * (Math.sin(wedge * Math.PI) / (wedge * Math.PI)) // centroid of a sector: 2/3 R sin(a)/a
  const [cos, sin] = directionOf(shelf.angleIndex / ANGLE_STEPS + wedge / 2)
  return { xMm: shelf.xMm + outMm * cos, yMm: shelf.yMm + outMm * sin }
}
