import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import { firmnessThresholdDb } from './clay.ts'
import {
  CELL_COUNT,
  freshSlab,
  meanDbOf,
  restoreSlab,
  settleFaces,
  surfaceDbOf,
  zoneStateOf,
  type Slab,
  type Surroundings,
} from './slab.ts'
import {
  exposureOf,
  filmKeeper,
  hourlyAir,
  surround,
  type Exposure,
  type FilmKeeper,
  type HourlyAir,
  type Zone,
} from './surroundings.ts'
import { advance } from './slabStep.ts'
import type { AirOfSpot, CoverSpan, Draw, PartClass, PartState, Trajectory } from './types.ts'

/** Longest step; and the first step after a change of cover, from which steps double. */
const STEP_MIN = 60
const FIRST_STEP_MIN = 4
/** A zone's mean changes by about this much in a step: open ware takes steps of half an hour, tucked ware of an hour. */
const STEP_CHANGE_DB = 0.0022

export type TrajectoryRequest = {
  readonly part: PartClass
  /** In rising order; the first begins where the run begins (its cut, or the moment of `start`). */
  readonly spans: readonly CoverSpan[]
  readonly airOfSpot: AirOfSpot
  readonly draw: Draw
  /** Last minute wanted. */
  readonly toMin: Minute
  /** Where the part is when the first span begins; as cut unless given. */
  readonly start?: PartState
  /** End early once every zone is at or below this moisture. */
  readonly untilDb?: number
  /** Longest step, minutes; 60 unless given. */
  readonly stepMin?: number
}

/**
 * How a part dries: the full model. Zones (middle, rim, thickest spot) dry side by side in hour-by-hour air, through
 * every change of cover, spot, board and face.
 * @returns points at least every hour; mean moisture within 0.001 of the answer with steps going to zero
 * @throws RangeError when spans are empty or not rising, or the air is not a number
 */
export function trajectory(request: TrajectoryRequest): Trajectory {
  const { spans, toMin, untilDb = -1, stepMin = STEP_MIN } = request
  const first = checkedFirst(spans)
  const zones = zonesOf(request, first)
  const points = emptyPoints()
  let minute = request.start?.minute ?? first.fromMin
  record(points, minute, zones)
  for (let i = 0; i < spans.length && minute < toMin; i++) {
    const span = spans[i]!
    const endMin = Math.min(toMin, spans[i + 1]?.fromMin ?? Infinity)
    if (endMin <= minute) continue
    enter(zones, request, span, span.fromMin >= minute)
    const air = hourlyAir(request.airOfSpot(span.spotId, request.draw))
    let step = Math.min(FIRST_STEP_MIN, stepMin)
    while (minute < endMin) {
      const hourEnd = (Math.floor(minute / MIN_PER_HOUR) + 1) * MIN_PER_HOUR
      const next = Math.min(minute + step, hourEnd, endMin)
      air.at((minute + next) / 2)
      const fastestPerMin = stepZones(zones, air, next - minute)
      minute = next
      step = Math.max(1, Math.min(step * 2, stepMin, Math.floor(STEP_CHANGE_DB / fastestPerMin)))
      record(points, minute, zones)
      if (untilDb >= 0 && zones.every(({ slab }) => slab.moisture.every((db) => db <= untilDb)))
        return finish(points, minute, zones)
    }
  }
  return finish(points, minute, zones)
}

/** A zone of a part on its way. */
type Drying = {
  readonly zone: Zone
  readonly slab: Slab
  readonly around: Surroundings
  readonly keeper: FilmKeeper
  exposure: Exposure
}

function checkedFirst(spans: readonly CoverSpan[]): CoverSpan {
  const first = spans[0]
  if (!first) throw new RangeError('a run has no cover spans')
  if (spans.some((span, i) => i > 0 && span.fromMin < spans[i - 1]!.fromMin))
    throw new RangeError('cover spans do not rise')
  return first
}

function zonesOf({ part, draw, airOfSpot, start }: TrajectoryRequest, first: CoverSpan): Drying[] {
  const { tempC } = airOfSpot(first.spotId, draw)(first.fromMin)
  const zoneOf = (zone: Zone, thicknessMm: number): Drying => {
    const slab = freshSlab(thicknessMm * draw.thicknessFactor, draw, tempC)
    const state = start && (zone === 'middle' ? start.middle : (start[zone] ?? start.middle))
    if (state) restoreSlab(slab, state)
    return { zone, slab, around: noSurroundings(), keeper: filmKeeper(), exposure: exposureOf(part, zone, first, draw) }
  }
  const zones = [zoneOf('middle', part.thicknessMm)]
  if (part.rim) zones.push(zoneOf('rim', part.thicknessMm))
  if (part.thickestMm !== undefined && part.thickestMm > part.thicknessMm)
    zones.push(zoneOf('thickest', part.thickestMm))
  return zones
}

const noSurroundings = (): Surroundings => ({
  airTempC: 0,
  vapourPressurePa: 0,
  topKgM2SPa: 0,
  bottomKgM2SPa: 0,
  heatWM2K: 0,
  suctionKgM2S: 0,
  suctionCapacityKgM2: 0,
})

/** A span's exposure and, if it begins now, what is done to the ware then. A board it is moved to is a fresh one. */
function enter(zones: readonly Drying[], { part, draw }: TrajectoryRequest, span: CoverSpan, begins: boolean): void {
  for (const drying of zones) {
    drying.exposure = exposureOf(part, drying.zone, span, draw)
    drying.keeper.tempC = NaN
    if (!begins) continue
    if (span.board !== undefined) drying.slab.boardKgM2 = 0
    if (span.turned) {
      drying.slab.moisture.reverse()
      settleFaces(drying.slab)
    }
    if (span.dampenedKgM2) dampen(drying.slab, span.dampenedKgM2, draw)
  }
}

/** Touching water soaks into the face until its cells are as wet as when cut; ware that has paled is not rewetted. */
function dampen(slab: Slab, waterKgM2: number, draw: Draw): void {
  if (surfaceDbOf(slab) <= firmnessThresholdDb('chalky', draw)) return
  let left = waterKgM2
  for (let i = 0; i < CELL_COUNT && left > 0; i++) {
    const takes = Math.min(left, Math.max(0, draw.startMoistureDb - slab.moisture[i]!) * slab.cellMass[i]!)
    slab.moisture[i] = slab.moisture[i]! + takes / slab.cellMass[i]!
    slab.givenOffKgM2 -= takes
    left -= takes
  }
  settleFaces(slab)
}

/** One step of all zones. @returns the fastest change of a zone's mean, per minute */
function stepZones(zones: readonly Drying[], air: HourlyAir, minutes: number): number {
  const middle = zones[0]!.slab
  let fastest = 0
  for (const { zone, slab, around, exposure, keeper } of zones) {
    const before = slab.givenOffKgM2
    surround(around, exposure, air, keeper)
    if (zone === 'rim') advance(slab, around, minutes * 60, { slab: middle, perM2: exposure.crossingPerM2 })
    else advance(slab, around, minutes * 60)
    fastest = Math.max(fastest, Math.abs(slab.givenOffKgM2 - before) / slab.dryMassKgM2)
  }
  return fastest / minutes
}

type Points = { [Key in keyof Omit<Trajectory, 'end'>]: number[] }

const emptyPoints = (): Points => ({
  minute: [],
  meanDb: [],
  rimDb: [],
  thickestDb: [],
  wettestDb: [],
  surfaceDb: [],
  driestDb: [],
  tempC: [],
  givenOffKgM2: [],
})

function record(points: Points, minute: Minute, zones: readonly Drying[]): void {
  const middle = zones[0]!.slab
  const meanDb = meanDbOf(middle)
  let rimDb = meanDb
  let thickest = middle
  let driestDb = Infinity
  for (const { zone, slab } of zones) {
    if (zone === 'rim') rimDb = meanDbOf(slab)
    if (zone === 'thickest') thickest = slab
    for (let i = 0; i < CELL_COUNT; i++) driestDb = Math.min(driestDb, slab.moisture[i]!)
  }
  let wettestDb = 0
  for (let i = 0; i < CELL_COUNT; i++) wettestDb = Math.max(wettestDb, thickest.moisture[i]!)
  points.minute.push(minute)
  points.meanDb.push(meanDb)
  points.rimDb.push(rimDb)
  points.thickestDb.push(thickest === middle ? meanDb : meanDbOf(thickest))
  points.wettestDb.push(wettestDb)
  points.surfaceDb.push(surfaceDbOf(middle))
  points.driestDb.push(driestDb)
  points.tempC.push(middle.tempC)
  points.givenOffKgM2.push(middle.givenOffKgM2)
}

function finish(points: Points, minute: Minute, zones: readonly Drying[]): Trajectory {
  const stateOf = (wanted: Zone) => {
    const found = zones.find(({ zone }) => zone === wanted)
    return found && zoneStateOf(found.slab)
  }
  const rim = stateOf('rim')
  const thickest = stateOf('thickest')
  return { ...points, end: { minute, middle: stateOf('middle')!, ...(rim && { rim }), ...(thickest && { thickest }) } }
}
