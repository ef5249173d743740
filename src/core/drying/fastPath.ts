import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import { clayTableOf, lookUp, type ClayTable } from './clayTable.ts'
import { demandOf, exposureKey, type Demand, type DemandBook } from './demand.ts'
import { heatCapacityOf, latentHeat, SUCTION_ENDS_DB, waterMobility } from './slab.ts'
import { exposureOf, type Exposure, type Zone } from './surroundings.ts'
import type { CoverRegime, CoverSpan, Draw, PartClass, PartState, StepBand, WindowTable } from './types.ts'
import { moistureBandOf, tableOf, windowOf, type DrawWindow, type MoistureBand, type PartCurve } from './windows.ts'

/** An absorbent board lets go when its face has dried, a little before the part's mean has. */
const SUCTION_ENDS_MEAN_DB = SUCTION_ENDS_DB + 0.012
/** Moisture at which a part's heat capacity is taken. */
const MIDWAY_DB = 0.2

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
    const curves = parts.map((part, p) =>
      fastCurve({ book, part, spans, cutMin, endMin, draw, d, start: starts?.[p]?.[d] }),
    )
    limits[d]!.forEach((limit, step) => windows[step]!.push(windowOf(curves, limit)))
  })
  return windows
}

type CurveRequest = {
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

/** A stretch under one exposure, hours counted from the book's first. */
type Leg = {
  readonly fromHour: number
  readonly toHour: number
  readonly demand: Demand
  readonly exposure: Exposure
  readonly dampenedKgM2: number
}

/** A part's curve by running sums. */
export function fastCurve(request: CurveRequest): PartCurve {
  const { part, draw, book, cutMin, endMin, start } = request
  const clay = clayTableOf(draw)
  const massKgM2 = (part.thicknessMm * draw.thicknessFactor) / 1000 / clay.specificVolumeAsCut
  const legs = legsOf(request, 'middle')
  const startDb = start ? meanOfState(start.middle.cellsDb) : draw.startMoistureDb
  const startTempC = start?.middle.tempC ?? request.book.airOfSpot(request.spans[0]!.spotId, draw)(cutMin).tempC
  const walk: Walk = { clay, massKgM2, legs, startDb, startTempC, heat: heatCapacityOf(massKgM2, MIDWAY_DB) }
  const toMinute = (hour: number): number => (hour + book.firstHour) * MIN_PER_HOUR
  return {
    endMin,
    meanFallsTo: (moistureDb) => (moistureDb >= startDb ? cutMin : toMinute(hourAtMoisture(walk, moistureDb))),
    rimFallsTo: (moistureDb, beforeMin) =>
      part.rim ? toMinute(rimHour(walk, request, moistureDb, beforeMin / MIN_PER_HOUR - book.firstHour)) : Infinity,
    meanAt: (minute) => moistureAtHour(walk, minute / MIN_PER_HOUR - book.firstHour),
  }
}

type Walk = {
  readonly clay: ClayTable
  readonly massKgM2: number
  readonly legs: readonly Leg[]
  readonly startDb: number
  readonly startTempC: number
  /** Heat capacity, J/(m2 K): cooling down to the wet temperature gives off water too. */
  readonly heat: number
}

/** Legs of a zone from the spans; consecutive, the first at the start, the last up to the end. */
function legsOf({ book, part, spans, cutMin, endMin, draw, d, start }: CurveRequest, zone: Zone): Leg[] {
  const legs: Leg[] = []
  const beginMin = start?.minute ?? cutMin
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!
    const fromMin = Math.max(beginMin, span.fromMin)
    const toMin = Math.min(endMin, spans[i + 1]?.fromMin ?? Infinity)
    if (toMin <= fromMin) continue
    const exposure = exposureOf(part, zone, span, draw)
    legs.push({
      fromHour: fromMin / MIN_PER_HOUR - book.firstHour,
      toHour: toMin / MIN_PER_HOUR - book.firstHour,
      demand: demandOf(book, exposureKey(exposure, span.spotId), span.spotId, exposure, d),
      exposure,
      dampenedKgM2: span.dampenedKgM2 ?? 0,
    })
  }
  return legs
}

/** Hour at which the mean has fallen to a moisture; Infinity if it has not by the end of the last leg. */
function hourAtMoisture(walk: Walk, moistureDb: number): number {
  const { clay, massKgM2, startDb } = walk
  const left = lookUp(clay.toGiveOff, startDb)
  const wantedKgM2 = massKgM2 * (left - lookUp(clay.toGiveOff, moistureDb))
  const suctionEndsKgM2 = massKgM2 * (left - lookUp(clay.toGiveOff, SUCTION_ENDS_MEAN_DB))
  let givenOff = 0
  for (const leg of walk.legs) {
    givenOff -= leg.dampenedKgM2
    let fromHour = leg.fromHour
    let suction = leg.exposure.suctionKgM2S * 3600
    if (suction > 0) {
      // While the board sucks: until it is full, until its face has dried, or until the moisture is reached.
      const fullHour = fromHour + leg.exposure.suctionCapacityKgM2 / suction
      const toHour = Math.min(leg.toHour, fullHour)
      const until = Math.min(wantedKgM2, Math.max(givenOff, suctionEndsKgM2))
      const hour = hourInLeg(walk, leg, fromHour, toHour, givenOff, suction, until)
      if (hour <= toHour && wantedKgM2 <= suctionEndsKgM2) return hour
      const drunkHour = Math.min(hour, toHour)
      givenOff += between(leg.demand.running, fromHour, drunkHour) + suction * (drunkHour - fromHour)
      fromHour = drunkHour
      suction = 0
    }
    const hour = hourInLeg(walk, leg, fromHour, leg.toHour, givenOff, suction, wantedKgM2)
    if (hour <= leg.toHour) return hour
    givenOff += between(leg.demand.running, fromHour, leg.toHour)
  }
  return Infinity
}

/** First hour within a leg at which enough has been given off, or Infinity. Sums rise, so halving finds it. */
function hourInLeg(
  walk: Walk,
  { demand }: Leg,
  fromHour: number,
  toHour: number,
  before: number,
  suction: number,
  wantedKgM2: number,
): number {
  const { running, wetTempC } = demand
  const base = before - valueAt(running, fromHour)
  const given = (hour: number): number =>
    base + valueAt(running, hour) + suction * (hour - fromHour) + cooledKgM2(walk, valueAt(wetTempC, hour))
  if (given(toHour) < wantedKgM2) return Infinity
  let low = fromHour
  let high = toHour
  if (given(low) >= wantedKgM2) return low
  while (high - low > 1) {
    const middle = Math.ceil((low + high) / 2) < high ? Math.ceil((low + high) / 2) : (low + high) / 2
    if (given(middle) < wantedKgM2) low = middle
    else high = middle
  }
  const atLow = given(low)
  const atHigh = given(high)
  return atHigh > atLow ? low + ((high - low) * (wantedKgM2 - atLow)) / (atHigh - atLow) : high
}

/** Water given off by cooling down from the start to a wet temperature. */
const cooledKgM2 = ({ heat, startTempC }: Walk, wetC: number): number => (heat * (startTempC - wetC)) / latentHeat(wetC)

function valueAt(series: Float64Array, hour: number): number {
  const row = hour | 0
  const below = series[row]!
  const share = hour - row
  return share > 0 ? below + share * (series[row + 1]! - below) : below
}

const between = (running: Float64Array, fromHour: number, toHour: number): number =>
  valueAt(running, toHour) - valueAt(running, fromHour)

/** The mean's moisture at an hour, by halving `hourAtMoisture`'s sums. */
function moistureAtHour(walk: Walk, hour: number): number {
  let dry = 0
  let wet = walk.startDb
  for (let step = 0; step < 14; step++) {
    const middle = (dry + wet) / 2
    if (hourAtMoisture(walk, middle) <= hour) wet = middle
    else dry = middle
  }
  return (dry + wet) / 2
}

/**
 * Hour at which the rim has fallen to a moisture: an hourly march, since what a rim gets from the middle takes time.
 * @param beforeHour looked no further
 */
function rimHour(walk: Walk, request: CurveRequest, moistureDb: number, beforeHour: number): number {
  const { clay, massKgM2, heat } = walk
  const legs = legsOf(request, 'rim')
  let middleDb = walk.startDb
  let rimDb = request.start?.rim ? meanOfState(request.start.rim.cellsDb) : middleDb
  let middleTempC = walk.startTempC
  let rimTempC = walk.startTempC
  for (let i = 0; i < legs.length; i++) {
    const rimLeg = legs[i]!
    const middleLeg = walk.legs[i]!
    const mobility = waterMobility(valueAt(rimLeg.demand.wetTempC, rimLeg.fromHour))
    const crossing = rimLeg.exposure.crossingPerM2 * clay.specificVolumeAsCut ** 2 * 3600 * mobility
    let hour = rimLeg.fromHour
    while (hour < rimLeg.toHour) {
      if (hour >= beforeHour) return Infinity
      const next = Math.min(Math.floor(hour) + 1, rimLeg.toHour)
      const length = lookUp(clay.length, middleDb)
      const share = (length * length) / massKgM2
      const middleC = valueAt(middleLeg.demand.wetTempC, next)
      const rimC = valueAt(rimLeg.demand.wetTempC, next)
      const middleLoss =
        between(middleLeg.demand.running, hour, next) + (heat * (middleTempC - middleC)) / latentHeat(middleC)
      const rimLoss = between(rimLeg.demand.running, hour, next) + (heat * (rimTempC - rimC)) / latentHeat(rimC)
      const liquid = 2 / (1 / lookUp(clay.liquid, rimDb) + 1 / lookUp(clay.liquid, middleDb))
      const cross = crossing * liquid * length ** 4 * (next - hour)
      const before = rimDb
      middleDb = Math.max(0.001, middleDb - middleLoss * share)
      rimDb = Math.max(0.001, (rimDb - rimLoss * share + cross * middleDb) / (1 + cross))
      if (rimDb <= moistureDb) return hour + ((next - hour) * (before - moistureDb)) / Math.max(before - rimDb, 1e-12)
      middleTempC = middleC
      rimTempC = rimC
      hour = next
    }
  }
  return Infinity
}

/** Mean moisture of cells that are closer at the faces, by their shares of the mass. */
function meanOfState(cellsDb: readonly number[]): number {
  const count = cellsDb.length
  const edge = (i: number): number => Math.cos((Math.PI * i) / count) / 2
  return cellsDb.reduce((sum, db, i) => sum + db * (edge(i) - edge(i + 1)), 0)
}
