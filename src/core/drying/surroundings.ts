import type { AirAt } from '#core/air/types.ts'
import { quickSaturationPa } from '#core/air/saturationTable.ts'
import { MIN_PER_HOUR, S_PER_HOUR } from '../units.ts'
import { filmOver, type Film } from './airFilm.ts'
import type { Surroundings } from './slab.ts'
import type { BoardKind, CoverKind, CoverSpan, Draw, PartClass } from './types.ts'

/** Room radiation at ware's temperature, and heat from a board below. @see Incropera, h_r = 4 e s T^3; board assumed */
const RADIATION_WM2K = 5.5
const BOARD_WM2K = 3.5
const USUAL_LENGTH_MM = 300
/** Inside a cupboard nothing stirs the air. From memory. */
const CUPBOARD_SPEED_MS = 0.05
/** The air film barely changes with temperature: it is worked out anew only when this much has changed. */
const FILM_STEP_K = 4

/** Which zone of a part: they differ in the face they have for their mass and in what lies over it. */
export type Zone = 'middle' | 'rim' | 'thickest'

/** How a zone is exposed in one cover span: everything about it that does not change with the hour. */
export type Exposure = {
  readonly cover: CoverKind
  readonly strip: CoverKind | undefined
  /** Names all that is not a matter of chance, spot or cover: exposures of one shape differ by their draw alone. */
  readonly shape: string
  readonly airFactor: number
  /** Permeance of cover and strip together; infinite when nothing lies over the face. */
  readonly permeance: number
  /** Vapour leaves this many times as fast as from a flat middle face. */
  readonly faceFactor: number
  /** Face per face of a flat middle: radiation follows the face alone. */
  readonly faceArea: number
  /** Share of the free film that the face below sees. */
  readonly belowShare: number
  readonly boardHeatWM2K: number
  readonly suctionKgM2S: number
  readonly suctionCapacityKgM2: number
  readonly lengthM: number
  /** Between a rim and the middle: one over the square of the way water has to go. */
  readonly crossingPerM2: number
  readonly cupboardRh: number
}

/** The exposure of a zone under a span in one draw. */
export function exposureOf(part: PartClass, zone: Zone, span: CoverSpan, draw: Draw): Exposure {
  const board = span.board ?? part.board
  const strip = zone === 'rim' ? part.rim?.strip : undefined
  const { faceFactor, faceArea } = facesOf(part, zone, draw)
  return {
    cover: span.cover,
    strip,
    shape: shapeOf(part, zone, span, board),
    airFactor: draw.airFactorBySpot[span.spotId] ?? draw.airFactor,
    permeance: inSeries(draw.permeance[span.cover], strip ? draw.permeance[strip] : Infinity),
    faceFactor,
    faceArea,
    belowShare: belowShareOf(board, part, span, draw),
    boardHeatWM2K: board === 'sealed' || board === 'absorbent' ? BOARD_WM2K : 0,
    suctionKgM2S: board === 'absorbent' ? draw.absorbentKgM2H / S_PER_HOUR : 0,
    suctionCapacityKgM2: draw.absorbentCapacityKgM2,
    lengthM: (part.lengthMm ?? USUAL_LENGTH_MM) / 1000,
    crossingPerM2: part.rim ? (1000 / part.rim.widthMm) ** 2 : 0,
    cupboardRh: draw.cupboardRh,
  }
}

function shapeOf(part: PartClass, zone: Zone, span: CoverSpan, board: BoardKind): string {
  const edge = zone === 'rim' ? part.thicknessMm / (part.rim?.widthMm ?? USUAL_RIM_MM) : 0
  const bar = part.frame && !part.frame.middleIn ? `${part.frame.barWidthMm}/${part.thicknessMm}` : ''
  const inner = board === 'standing' ? (span.topOpen ? 1 : (part.innerFaceShare ?? 1)) : ''
  return `${board} ${edge} ${bar} ${inner} ${part.lengthMm ?? USUAL_LENGTH_MM}`
}

/** A rim adds its edge and thinner films; a bar of a frame without its middle is rim on both sides. */
function facesOf(part: PartClass, zone: Zone, draw: Draw): { faceFactor: number; faceArea: number } {
  if (zone === 'rim' && part.rim) {
    const faceArea = 1 + part.thicknessMm / part.rim.widthMm
    return { faceFactor: faceArea * draw.rimFactor, faceArea }
  }
  if (!part.frame || part.frame.middleIn) return { faceFactor: 1, faceArea: 1 }
  const bar = part.frame.barWidthMm
  const rimShare = Math.min(1, (2 * USUAL_RIM_MM) / bar)
  const edges = (2 * part.thicknessMm) / bar
  return { faceFactor: 1 + rimShare * (draw.rimFactor - 1) + edges * draw.rimFactor, faceArea: 1 + edges }
}

/** Width over which an edge is felt. Assumption. */
export const USUAL_RIM_MM = 15

function belowShareOf(board: BoardKind, part: PartClass, span: CoverSpan, draw: Draw): number {
  if (board === 'rack') return draw.rackShare
  if (board === 'standing') return span.topOpen ? 1 : (part.innerFaceShare ?? 1)
  return 0
}

const inSeries = (a: number, b: number): number => 1 / (1 / a + 1 / b)

/** The air of one spot as the model reads it: at whole hours, changing evenly between them. */
export type HourlyAir = {
  /** Sets the reader to the middle of a step; must not run backwards by more than the hour it holds. */
  readonly at: (minute: number) => void
  tempC: number
  vapourPressurePa: number
  airSpeedMS: number
}

/** Reads a spot's air hour by hour. Temperatures beyond -30 to 60 °C and humidities beyond 0 to 1 are cut off there. */
export function hourlyAir(airAt: AirAt): HourlyAir {
  const knot = { hour: NaN, temp: [0, 0], pressure: [0, 0], speed: [0, 0] }
  const read = (hour: number, side: 0 | 1): void => {
    const air = airAt(hour * MIN_PER_HOUR)
    if (!Number.isFinite(air.tempC + air.rh + air.airSpeedMS)) throw new RangeError('air is not a number')
    const tempC = Math.min(60, Math.max(-30, air.tempC))
    knot.temp[side] = tempC
    knot.pressure[side] = Math.min(1, Math.max(0, air.rh)) * quickSaturationPa(tempC)
    knot.speed[side] = Math.max(0, air.airSpeedMS)
  }
  const reader: HourlyAir = {
    tempC: 0,
    vapourPressurePa: 0,
    airSpeedMS: 0,
    at: (minute) => {
      const hour = Math.floor(minute / MIN_PER_HOUR)
      if (hour !== knot.hour) {
        if (hour === knot.hour + 1) {
          knot.temp[0] = knot.temp[1]!
          knot.pressure[0] = knot.pressure[1]!
          knot.speed[0] = knot.speed[1]!
        } else read(hour, 0)
        read(hour + 1, 1)
        knot.hour = hour
      }
      const share = minute / MIN_PER_HOUR - hour
      reader.tempC = knot.temp[0]! + share * (knot.temp[1]! - knot.temp[0]!)
      reader.vapourPressurePa = knot.pressure[0]! + share * (knot.pressure[1]! - knot.pressure[0]!)
      reader.airSpeedMS = knot.speed[0]! + share * (knot.speed[1]! - knot.speed[0]!)
    },
  }
  return reader
}

/** The film over ware, worked out anew only when the air has changed enough to matter. */
export type FilmKeeper = { film: Film; tempC: number; airSpeedMS: number }

export const filmKeeper = (): FilmKeeper => ({ film: { heatWM2K: 0, vapourKgM2SPa: 0 }, tempC: NaN, airSpeedMS: NaN })

/** Fills in what a zone meets in the air as read. Under a cover the film's heat is throttled as its vapour is. */
export function surround(around: Surroundings, exposure: Exposure, air: HourlyAir, keeper: FilmKeeper): void {
  const inCupboard = exposure.cover === 'damp cupboard'
  const airSpeedMS = inCupboard ? CUPBOARD_SPEED_MS : air.airSpeedMS
  if (!(Math.abs(air.tempC - keeper.tempC) < FILM_STEP_K && airSpeedMS === keeper.airSpeedMS)) {
    keeper.film = filmOver(air.tempC, airSpeedMS, exposure.lengthM)
    keeper.tempC = air.tempC
    keeper.airSpeedMS = airSpeedMS
  }
  const { heatWM2K, vapourKgM2SPa } = keeper.film
  const covered = inSeries(vapourKgM2SPa, exposure.permeance)
  const heat = heatWM2K * (covered / vapourKgM2SPa)
  const top = covered * exposure.airFactor * exposure.faceFactor
  around.airTempC = air.tempC
  around.vapourPressurePa = inCupboard ? exposure.cupboardRh * quickSaturationPa(air.tempC) : air.vapourPressurePa
  around.topKgM2SPa = top
  around.bottomKgM2SPa = top * exposure.belowShare
  const radiation = RADIATION_WM2K * exposure.faceArea
  const below = exposure.belowShare > 0 ? radiation : exposure.boardHeatWM2K
  around.heatWM2K = heat * exposure.faceFactor * (1 + exposure.belowShare) + radiation + below
  around.suctionKgM2S = exposure.suctionKgM2S
  around.suctionCapacityKgM2 = exposure.suctionCapacityKgM2
}
