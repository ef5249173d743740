import type { Minute } from '../time.ts'
import { MIN_PER_HOUR, S_PER_HOUR } from '../units.ts'
import { clayTableOf, lookUp, type ClayTable } from './clayTable.ts'
import { airTempC, type DemandBook } from './demand.ts'
import { legsInDraw, sharedLegs, type LegRequest, type SharedLeg } from './legs.ts'
import { marchOf, type March } from './march.ts'
import { curvesWithRecourse } from './recourse.ts'
import { hourAtMoisture, moistureAtHour, type Walk } from './runningSums.ts'
import { cellShare } from './slab.ts'
import { heatCapacityOf } from './water.ts'
import type { CoverRegime, CoverSpan, Draw, PartClass, PartState, StepBand, WindowTable } from './types.ts'
import { moistureBandOf, tableOf, windowOf, type DrawWindow, type MoistureBand, type PartCurve } from './windows.ts'

/** Moisture at which a part's heat capacity is taken. */
const MIDWAY_DB = 0.2
/** As long as less than this share of what the clay can bring leaves its face, the face stays wet. */
const BROUGHT_EASILY = 0.5

export type FastRequest = {
  readonly book: DemandBook
  readonly parts: readonly PartClass[]
  /** One band per step, in the steps' order. */
  readonly bands: readonly StepBand[]
  readonly regime: CoverRegime
  readonly cutMin: readonly Minute[]
  readonly horizonMin: number
  /** For a run under way, at its one `cutMin` (the moment of these states): [part][draw]. */
  readonly starts?: readonly (readonly PartState[])[]
}

/**
 * Windows of every step by running sums of evaporative demand: while clay shrinks, its moisture follows what a wet face
 * would have given off, so each end is a look-up; rims, sucking boards and faces that dry are marched hour by hour.
 * Against the full model (tested): ends of bands from soft to firm within 6 % of their age and 40 min in every draw
 * under one cover; rims and several covers so in nine draws of ten, and none off by a third. On random parts and covers
 * one end in two hundred is more than a tenth and an hour off, mostly thick ware on plasterboard. Turning is not felt.
 * @returns one table per band
 * @see fullWindowTables, the same by the full model
 */
export function windowTables(request: FastRequest): WindowTable[] {
  const { book, bands, cutMin } = request
  const limits = book.draws.map((draw) => bands.map((band) => moistureBandOf(band, draw)))
  const rows = cutMin.map((cut) => fastRow(request, limits, cut))
  return bands.map((_, step) =>
    tableOf(
      cutMin,
      rows.map((row) => row[step]!),
    ),
  )
}

/**
 * Tables on demand: runs of one design ask the same, and get what is there already. Kept as long as the keeper, which
 * belongs to one book, one list of cut times and regimes whose ids tell them apart.
 */
export function tableKeeper(book: DemandBook, cutMin: readonly Minute[], horizonMin: number) {
  const kept = new Map<string, WindowTable[]>()
  return (parts: readonly PartClass[], bands: readonly StepBand[], regime: CoverRegime): WindowTable[] => {
    const key = JSON.stringify([parts, bands, regime.id])
    const known = kept.get(key)
    if (known) return known
    const made = windowTables({ book, parts, bands, regime, cutMin, horizonMin })
    kept.set(key, made)
    return made
  }
}

/** Windows at one cut, [band][draw]. */
function fastRow(request: FastRequest, limits: readonly (readonly MoistureBand[])[], cutMin: Minute): DrawWindow[][] {
  const { book, parts, bands, regime, horizonMin, starts } = request
  const endMin = Math.min(cutMin + horizonMin, (book.firstHour + book.hourCount - 1) * MIN_PER_HOUR)
  const windows: DrawWindow[][] = bands.map(() => [])
  const planned = regime.spansFrom(cutMin)
  const laidOut = (spans: readonly CoverSpan[]): PartLegs[] =>
    parts.map((part) => legsOfPart({ book, part, spans, beginMin: cutMin, endMin }))
  const shared = laidOut(planned)
  book.draws.forEach((draw, d) => {
    const curvesUnder = (spans: readonly CoverSpan[]): PartCurve[] =>
      (spans === planned ? shared : laidOut(spans)).map((legs, p) => curveOn(legs, draw, d, starts?.[p]?.[d]))
    const curves = curvesWithRecourse(curvesUnder, planned, regime.recourse, limits[d]!, cutMin)
    limits[d]!.forEach((limit, step) => windows[step]!.push(windowOf(curves, limit)))
  })
  return windows
}

/** One part in one draw from its cut, or from where it is, under given covers. */
export type CurveRequest = {
  /** Must reach from `cutMin` (and the start's minute) to `endMin`. */
  readonly book: DemandBook
  readonly part: PartClass
  readonly spans: readonly CoverSpan[]
  readonly cutMin: Minute
  readonly endMin: Minute
  readonly draw: Draw
  /** Index of the draw in the book. */
  readonly d: number
  readonly start: PartState | undefined
}

/** A part's curve by the fast path. */
export function fastCurve({ book, part, spans, cutMin, endMin, draw, d, start }: CurveRequest): PartCurve {
  return curveOn(legsOfPart({ book, part, spans, beginMin: start?.minute ?? cutMin, endMin }), draw, d, start)
}

/** A part under given spans, laid out for all draws. */
type PartLegs = LegRequest & { readonly middle: readonly SharedLeg[]; readonly rim: readonly SharedLeg[] | undefined }

const legsOfPart = (request: LegRequest): PartLegs => ({
  ...request,
  middle: sharedLegs(request, 'middle'),
  rim: request.part.rim && sharedLegs(request, 'rim'),
})

/** A part's curve: by running sums where they tell it, by a march where they do not. */
function curveOn(
  { book, part, spans, beginMin, endMin, middle, rim }: PartLegs,
  draw: Draw,
  d: number,
  start?: PartState,
): PartCurve {
  const clay = clayTableOf(draw)
  const massKgM2 = (part.thicknessMm * draw.thicknessFactor) / 1000 / clay.specificVolumeAsCut
  const startDb = start ? meanOfCells(start.middle.cellsDb) : draw.startMoistureDb
  const legs = legsInDraw(middle, book, part, d)
  const firstC = legs[0] && airTempC(book, spans[0]!.spotId, d, legs[0].fromHour)
  const startTempC = start?.middle.tempC ?? firstC ?? 20
  const heat = heatCapacityOf(massKgM2, MIDWAY_DB)
  const walk: Walk = { clay, massKgM2, legs, startDb, startTempC, heat }
  const toMinute = (hour: number): number => (hour + book.firstHour) * MIN_PER_HOUR
  const toHour = (minute: number): number => minute / MIN_PER_HOUR - book.firstHour
  let marched: March | undefined
  const march = (): March =>
    (marched ??= marchOf(walk, draw, rim && legsInDraw(rim, book, part, d), {
      middleDb: startDb,
      rimDb: start?.rim ? meanOfCells(start.rim.cellsDb) : startDb,
      boardKgM2: start?.middle.boardKgM2 ?? 0,
    }))
  const sucks = legs.some(({ exposure }) => exposure.suctionKgM2S > 0)
  let lastDb = NaN
  let lastMin = NaN
  const meanFallsTo = (moistureDb: number): number => {
    // Bands touch: where the one closes the next opens.
    if (moistureDb === lastDb) return lastMin
    lastDb = moistureDb
    lastMin =
      moistureDb >= startDb
        ? beginMin
        : toMinute(sucks ? march().fallsTo('middle', moistureDb, Infinity) : summed(moistureDb))
    return lastMin
  }
  const summed = (moistureDb: number): number => {
    const { hour, kgM2H } = hourAtMoisture(walk, moistureDb)
    const faceDries = hour < Infinity && kgM2H > BROUGHT_EASILY * broughtKgM2H(clay, massKgM2, moistureDb)
    return faceDries ? march().fallsTo('middle', moistureDb, Infinity) : hour
  }
  return {
    endMin,
    meanFallsTo,
    rimFallsTo: (moistureDb, beforeMin) => {
      if (!rim) return moistureDb < lastDb ? Infinity : meanFallsTo(moistureDb)
      return toMinute(march().fallsTo('rim', moistureDb, toHour(beforeMin)))
    },
    meanAt: (minute) => (sucks ? march().middleAt(toHour(minute)) : moistureAtHour(walk, toHour(minute))),
  }
}

/** What clay can bring to one face whose outside is dry, kg/(m2 h), at 20 °C. */
const broughtKgM2H = (clay: ClayTable, massKgM2: number, meanDb: number): number =>
  ((3 * lookUp(clay.carried, meanDb)) / massKgM2) * lookUp(clay.length, meanDb) ** 4 * S_PER_HOUR

/** Mean moisture of cells that are closer at the faces, by their shares of the mass. */
function meanOfCells(cellsDb: readonly number[]): number {
  return cellsDb.reduce((sum, db, i) => sum + db * cellShare(i), 0)
}
