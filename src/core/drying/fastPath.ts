import type { Minute } from '../time.ts'
import { MIN_PER_HOUR, S_PER_HOUR } from '../units.ts'
import { clayTableOf, lookUp, type ClayTable } from './clayTable.ts'
import type { DemandBook } from './demand.ts'
import { legsOf, type CurveRequest } from './legs.ts'
import { marchOf, type March } from './march.ts'
import { curvesWithRecourse } from './recourse.ts'
import { hourAtMoisture, moistureAtHour, type Walk } from './runningSums.ts'
import { cellShare, heatCapacityOf } from './slab.ts'
import type { CoverRegime, CoverSpan, PartClass, PartState, StepBand, WindowTable } from './types.ts'
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
 * would have given off, so each end is a look-up. Within a window's worth of the full model (tested: open and close of
 * bands between soft and firm within 3 % of their age or 40 min), thousands of times faster.
 * Water given back by dampening is counted; a turned board is not felt.
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

/** Windows at one cut, [band][draw]. */
function fastRow(request: FastRequest, limits: readonly (readonly MoistureBand[])[], cutMin: Minute): DrawWindow[][] {
  const { book, parts, bands, regime, horizonMin, starts } = request
  const spans = regime.spansFrom(cutMin)
  const endMin = Math.min(cutMin + horizonMin, (book.firstHour + book.hourCount - 1) * MIN_PER_HOUR)
  const windows: DrawWindow[][] = bands.map(() => [])
  book.draws.forEach((draw, d) => {
    const curvesUnder = (under: readonly CoverSpan[]): PartCurve[] =>
      parts.map((part, p) => fastCurve({ book, part, spans: under, cutMin, endMin, draw, d, start: starts?.[p]?.[d] }))
    const curves = curvesWithRecourse(curvesUnder, spans, regime.recourse, limits[d]!, cutMin)
    limits[d]!.forEach((limit, step) => windows[step]!.push(windowOf(curves, limit)))
  })
  return windows
}

/** A part's curve: by running sums where they tell it, by a march where they do not. */
export function fastCurve(request: CurveRequest): PartCurve {
  const { part, draw, book, cutMin, endMin, start } = request
  const clay = clayTableOf(draw)
  const massKgM2 = (part.thicknessMm * draw.thicknessFactor) / 1000 / clay.specificVolumeAsCut
  const startDb = start ? meanOfCells(start.middle.cellsDb) : draw.startMoistureDb
  const startTempC = start?.middle.tempC ?? book.airOfSpot(request.spans[0]!.spotId, draw)(cutMin).tempC
  const heat = heatCapacityOf(massKgM2, MIDWAY_DB)
  const walk: Walk = { clay, massKgM2, legs: legsOf(request, 'middle'), startDb, startTempC, heat }
  const beginMin = start?.minute ?? cutMin
  const toMinute = (hour: number): number => (hour + book.firstHour) * MIN_PER_HOUR
  const toHour = (minute: number): number => minute / MIN_PER_HOUR - book.firstHour
  let marched: March | undefined
  const march = (): March =>
    (marched ??= marchOf(walk, draw, part.rim && legsOf(request, 'rim'), {
      middleDb: startDb,
      rimDb: start?.rim ? meanOfCells(start.rim.cellsDb) : startDb,
      boardKgM2: start?.middle.boardKgM2 ?? 0,
    }))
  const sucks = walk.legs.some(({ exposure }) => exposure.suctionKgM2S > 0)
  const meanFallsTo = (moistureDb: number): number => {
    if (moistureDb >= startDb) return beginMin
    if (sucks) return toMinute(march().fallsTo('middle', moistureDb, Infinity))
    const { hour, kgM2H } = hourAtMoisture(walk, moistureDb)
    const byMarch = hour < Infinity && kgM2H > BROUGHT_EASILY * broughtKgM2H(clay, massKgM2, moistureDb)
    return toMinute(byMarch ? march().fallsTo('middle', moistureDb, Infinity) : hour)
  }
  return {
    endMin,
    meanFallsTo,
    rimFallsTo: (moistureDb, beforeMin) =>
      part.rim ? toMinute(march().fallsTo('rim', moistureDb, toHour(beforeMin))) : meanFallsTo(moistureDb),
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
