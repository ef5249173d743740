import { quickSaturationPa, quickSaturationSlopePaK } from '#core/air/saturationTable.ts'
import type { Minute } from '../time.ts'
import { MIN_PER_HOUR, S_PER_HOUR } from '../units.ts'
import type { Surroundings } from './slab.ts'
import { latentHeat } from './water.ts'
import { filmKeeper, surround, type Exposure, type HourlyAir } from './surroundings.ts'
import type { AirOfSpot, Draw, PartClass } from './types.ts'

/** Activity over clay that is still wet, on the middle of the way from cut to firm. @see waterActivity at 0.2 */
const WET_ACTIVITY = 0.9985

/** Face left, of that as cut, midway to the end of shrinkage: a smaller face is cooled less. */
const MIDWAY_AREA = 0.945

/** What wet clay would give off in one exposure and draw, summed from hour to hour. */
export type Demand = {
  /** kg per m2 of face as cut, from the book's first hour to the start of hour i. */
  readonly running: Float64Array
  /** Temperature that a wet face comes to at the start of hour i. */
  readonly wetTempC: Float64Array
  /** Share of the heat that ware holds above the wet temperature which goes into water, not into the room. */
  readonly heatShare: number
}

/**
 * Running sums of evaporative demand by draw, made when first asked for and kept as long as the book: one book serves
 * all runs of a planning. Until clay stops shrinking its moisture follows these sums, whatever the weather did between.
 */
export type DemandBook = {
  readonly draws: readonly Draw[]
  readonly airOfSpot: AirOfSpot
  readonly firstHour: number
  readonly hourCount: number
  readonly airs: Map<string, readonly HourlyArrays[]>
  readonly demands: Map<string, (Demand | undefined)[]>
  /** By part and kind of span, so that nothing is named twice (see `legs.ts`). */
  readonly exposed: WeakMap<PartClass, Map<string, (Exposed | undefined)[]>>
}

/** A zone's exposure under one span in one draw, and the running sums that belong to it. */
export type Exposed = { readonly exposure: Exposure; readonly demand: Demand }

type HourlyArrays = { readonly tempC: Float64Array; readonly vapourPa: Float64Array; readonly speedMS: Float64Array }

/** An empty book over a stretch of time: from the earliest cut or state to the last cut plus the horizon. */
export function demandBook(draws: readonly Draw[], airOfSpot: AirOfSpot, fromMin: Minute, toMin: Minute): DemandBook {
  const firstHour = Math.floor(fromMin / MIN_PER_HOUR)
  const hourCount = Math.ceil(toMin / MIN_PER_HOUR) - firstHour + 1
  return { draws, airOfSpot, firstHour, hourCount, airs: new Map(), demands: new Map(), exposed: new WeakMap() }
}

/** Exposures that dry alike share their sums: this names what tells them apart (besides the draw). */
export const exposureKey = (exposure: Exposure, spotId: string): string =>
  `${spotId}|${exposure.cover}|${exposure.strip ?? ''}|${exposure.shape}`

/** The running sums of an exposure in one draw. */
export function demandOf(book: DemandBook, key: string, spotId: string, exposure: Exposure, draw: number): Demand {
  let byDraw = book.demands.get(key)
  if (!byDraw) {
    byDraw = book.draws.map(() => undefined)
    book.demands.set(key, byDraw)
  }
  return (byDraw[draw] ??= sumDemand(book, spotId, exposure, draw))
}

function airsOf(book: DemandBook, spotId: string): readonly HourlyArrays[] {
  const known = book.airs.get(spotId)
  if (known) return known
  const made = book.draws.map((draw) => readHours(book, spotId, draw))
  book.airs.set(spotId, made)
  return made
}

/** Temperature of a spot's air in one draw. @param hour counted from the book's first */
export const airTempC = (book: DemandBook, spotId: string, d: number, hour: number): number =>
  airsOf(book, spotId)[d]!.tempC[Math.floor(hour)]!

function readHours(book: DemandBook, spotId: string, draw: Draw): HourlyArrays {
  const airAt = book.airOfSpot(spotId, draw)
  const tempC = new Float64Array(book.hourCount)
  const vapourPa = new Float64Array(book.hourCount)
  const speedMS = new Float64Array(book.hourCount)
  for (let hour = 0; hour < book.hourCount; hour++) {
    const air = airAt((book.firstHour + hour) * MIN_PER_HOUR)
    if (!Number.isFinite(air.tempC + air.rh + air.airSpeedMS)) throw new RangeError('air is not a number')
    tempC[hour] = Math.min(60, Math.max(-30, air.tempC))
    vapourPa[hour] = Math.min(1, Math.max(0, air.rh)) * quickSaturationPa(tempC[hour]!)
    speedMS[hour] = Math.max(0, air.airSpeedMS)
  }
  return { tempC, vapourPa, speedMS }
}

function sumDemand(book: DemandBook, spotId: string, exposure: Exposure, draw: number): Demand {
  const hours = airsOf(book, spotId)[draw]!
  const running = new Float64Array(book.hourCount)
  const wetTempC = new Float64Array(book.hourCount)
  const air: HourlyAir = { at: () => undefined, tempC: 0, vapourPressurePa: 0, airSpeedMS: 0 }
  const around = {} as Surroundings
  const keeper = filmKeeper()
  let tempC = hours.tempC[0]!
  let before = 0
  let heatShare = 0
  for (let hour = 0; hour < book.hourCount; hour++) {
    air.tempC = hours.tempC[hour]!
    air.vapourPressurePa = hours.vapourPa[hour]!
    air.airSpeedMS = hours.speedMS[hour]!
    surround(around, exposure, air, keeper)
    const g = around.topKgM2SPa + around.bottomKgM2SPa
    tempC = wetFaceTempC(around, g * MIDWAY_AREA, tempC)
    wetTempC[hour] = tempC
    const now = g * (WET_ACTIVITY * quickSaturationPa(tempC) - around.vapourPressurePa)
    if (hour > 0) running[hour] = running[hour - 1]! + ((before + now) / 2) * S_PER_HOUR
    before = now
    if (hour === 0) {
      const intoWater = latentHeat(tempC) * g * quickSaturationSlopePaK(tempC)
      heatShare = intoWater / (intoWater + around.heatWM2K)
    }
  }
  return { running, wetTempC, heatShare }
}

/** Where heat from the room and the cold of evaporation balance. */
function wetFaceTempC(around: Surroundings, g: number, guessC: number): number {
  let tempC = guessC
  for (let step = 0; step < 8; step++) {
    const latent = latentHeat(tempC)
    const flux = g * (WET_ACTIVITY * quickSaturationPa(tempC) - around.vapourPressurePa)
    const gain = around.heatWM2K * (around.airTempC - tempC) - latent * flux
    const change = gain / (around.heatWM2K + latent * g * WET_ACTIVITY * quickSaturationSlopePaK(tempC))
    tempC += change
    if (Math.abs(change) < 0.01) break
  }
  return tempC
}
