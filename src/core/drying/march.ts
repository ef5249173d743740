import { quickSaturationPa } from '#core/air/saturationTable.ts'
import { lookUp } from './clayTable.ts'
import { gainBetween, valueAt, type Leg } from './legs.ts'
import { boneDryDb } from './isotherm.ts'
import type { Walk } from './runningSums.ts'
import { SUCTION_ENDS_DB, SUCTION_FADES_DB } from './slabStep.ts'
import { latentHeat, waterMobility } from './water.ts'
import type { Draw } from './types.ts'

/** Steps of a march: whole hours over which moisture falls by about this much; short where a board sucks and fades. */
const STEP_DB = 0.01
const LONGEST_STEP_HOURS = 12
const SUCKING_STEP_HOURS = 0.25
/** A face this dry gives off all that the clay brings; about where its activity has fallen to two thirds. */
const DRY_FACE_DB = 0.02
/** Mean over face of a slab drying evenly from one side: flux = 3 K (mean - face) / M. */
const ONE_SIDED = 3
/**
 * The same for what reaches a dry face, by the integral of the diffusivity up to the mean: more than 3, since wet clay
 * conducts better than its mean. Fitted to the full model over the priors' range.
 */
const BROUGHT_BY_MEAN = 3.7

/**
 * A part's middle and rim hour by hour by a handful of sums: for what running sums alone cannot tell, a rim fed by the
 * middle, a board that sucks, thick or tight clay whose face has dried. Goes on as far as it is asked.
 */
export type March = {
  /** First hour at which the middle's or the rim's mean is at or below a moisture, looked for up to `beforeHour`. */
  readonly fallsTo: (zone: 'middle' | 'rim', moistureDb: number, beforeHour: number) => number
  readonly middleAt: (hour: number) => number
}

export type MarchStart = { readonly middleDb: number; readonly rimDb: number; readonly boardKgM2: number }

/** @param rimLegs legs of the rim, beside the walk's own; absent for a part without rim */
export function marchOf(walk: Walk, draw: Draw, rimLegs: readonly Leg[] | undefined, start: MarchStart): March {
  const hours = [walk.legs[0]?.fromHour ?? 0]
  const middle = [start.middleDb]
  const rim = [start.rimDb]
  const middleZone: ZoneWalk = { ...zoneAt(walk, start.middleDb), boardKgM2: start.boardKgM2 }
  const rimZone: ZoneWalk = { ...zoneAt(walk, start.rimDb), boardKgM2: start.boardKgM2 }
  const floorDb = boneDryDb(draw.oswinA, draw.oswinB, 0)
  let leg = 0
  const step = (): boolean => {
    const from = hours.at(-1)!
    while (leg < walk.legs.length && from >= walk.legs[leg]!.toHour) enterLeg(walk, ++leg, draw, [middleZone, rimZone])
    const own = walk.legs[leg]
    if (!own) return false
    const to = Math.min(nextStop(own, from, walk.massKgM2), own.toHour)
    const before = middleZone.db
    giveOff(walk, middleZone, own, from, to, floorDb)
    if (rimLegs) {
      giveOff(walk, rimZone, rimLegs[leg]!, from, to, floorDb)
      crossOver(walk, rimZone, (before + middleZone.db) / 2, rimLegs[leg]!, to - from)
    } else rimZone.db = middleZone.db
    hours.push(to)
    middle.push(middleZone.db)
    rim.push(rimZone.db)
    return true
  }
  const fallsTo: March['fallsTo'] = (zone, moistureDb, beforeHour) => {
    const series = zone === 'middle' ? middle : rim
    for (let i = 0; i < hours.length || (hours.at(-1)! < beforeHour && step()); i++) {
      if (series[i]! > moistureDb) continue
      if (i === 0) return hours[0]!
      const share = (series[i - 1]! - moistureDb) / (series[i - 1]! - series[i]!)
      return hours[i - 1]! + share * (hours[i]! - hours[i - 1]!)
    }
    return Infinity
  }
  const middleAt: March['middleAt'] = (hour) => {
    while (hours.at(-1)! < hour && step());
    const after = hours.findIndex((at) => at >= hour)
    if (after <= 0) return after < 0 ? middle.at(-1)! : middle[0]!
    const share = (hour - hours[after - 1]!) / (hours[after]! - hours[after - 1]!)
    return middle[after - 1]! + share * (middle[after]! - middle[after - 1]!)
  }
  return { fallsTo, middleAt }
}

/** A zone on its march. */
type ZoneWalk = { db: number; tempC: number; boardKgM2: number }

const zoneAt = (walk: Walk, db: number): ZoneWalk => ({ db, tempC: walk.startTempC, boardKgM2: 0 })

/** Fresh boards take anew; water given by hand soaks in up to the moisture as cut. */
function enterLeg(walk: Walk, index: number, draw: Draw, zones: readonly ZoneWalk[]): void {
  const leg = walk.legs[index]
  if (!leg) return
  for (const zone of zones) {
    if (leg.freshBoard) zone.boardKgM2 = 0
    zone.db = Math.min(draw.startMoistureDb, zone.db + leg.dampenedKgM2 / walk.massKgM2)
  }
}

/** The longer, the less is taken in the next hour: about as many steps under a tuck as in the open. */
function nextStop({ exposure, demand }: Leg, hour: number, massKgM2: number): number {
  if (exposure.suctionKgM2S > 0) return (Math.floor(hour / SUCKING_STEP_HOURS + 1e-9) + 1) * SUCKING_STEP_HOURS
  const row = Math.floor(hour)
  const perHourDb = Math.abs((demand.running[row + 1] ?? 0) - demand.running[row]!) / massKgM2
  return row + Math.max(1, Math.min(LONGEST_STEP_HOURS, Math.floor(STEP_DB / perHourDb)))
}

/** What the face gives off, never more than the clay can bring to it, and what the board takes. */
function giveOff(walk: Walk, zone: ZoneWalk, leg: Leg, fromHour: number, toHour: number, floorDb: number): void {
  const { clay, massKgM2, heat } = walk
  const wetC = valueAt(leg.demand.wetTempC, toHour)
  const length = lookUp(clay.length, zone.db)
  const area = length * length
  const hours = toHour - fromHour
  const perMass = (area * area * hours * 3600) / massKgM2
  const faces = leg.exposure.belowShare > 0 ? (1 + leg.exposure.belowShare) * 2 : 1
  const most = BROUGHT_BY_MEAN * faces * broughtThrough(walk, zone.db, wetC) * perMass
  const wanted = gainBetween(leg.demand.running, fromHour, toHour) * area
  const cooled = (heat * leg.demand.heatShare * (zone.tempC - wetC)) / latentHeat(wetC)
  const sucked = leg.exposure.suctionKgM2S > 0 ? drunk(walk, zone, leg, fromHour, toHour, wetC) : 0
  zone.boardKgM2 += sucked
  zone.tempC = wetC
  zone.db = Math.max(Math.min(zone.db, floorDb), zone.db - (leastOf(wanted, most) + cooled + sucked) / massKgM2)
}

/** A smooth least of what the air wants and the clay brings: the face dries gradually. */
function leastOf(wanted: number, most: number): number {
  const ratio = wanted / Math.max(most, 1e-12)
  if (ratio < 0.3) return wanted
  const squared = ratio * ratio
  return wanted / Math.sqrt(Math.sqrt(1 + squared * squared))
}

/** What an absorbent board takes in a step. */
function drunk(walk: Walk, zone: ZoneWalk, leg: Leg, fromHour: number, toHour: number, wetC: number): number {
  const length = lookUp(walk.clay.length, zone.db)
  const flow = lookUp(walk.clay.liquid, zone.db) * waterMobility(wetC) * length ** 4 * 3600
  return suction(zone, leg, bringsPerDb(flow, walk.massKgM2, toHour - leg.fromHour)) * (toHour - fromHour)
}

/** What moisture's gradient down to a dry face can carry through the clay, as liquid and as vapour, kg2/(m4 s). */
function broughtThrough({ clay }: Walk, meanDb: number, tempC: number): number {
  const faceDb = Math.min(meanDb, DRY_FACE_DB)
  const liquid = lookUp(clay.carried, meanDb) - lookUp(clay.carried, faceDb)
  const vapour = lookUp(clay.carriedAsVapour, meanDb) - lookUp(clay.carriedAsVapour, faceDb)
  return liquid * waterMobility(tempC) + vapour * quickSaturationPa(tempC)
}

/**
 * How much more comes to a face per unit of moisture it lies below the mean: at first from a thin layer that has been
 * reached so far, in the end from the whole. @param flow kg2/(m4 h)
 * @see Crank (1975) eq. 2.45 (constant flux from a half space)
 */
const bringsPerDb = (flow: number, massKgM2: number, sinceHours: number): number =>
  Math.max((ONE_SIDED * flow) / massKgM2, Math.sqrt((Math.PI * flow) / (4 * Math.max(sinceHours, 0.1))))

/** What the board takes, kg/(m2 h), its face being drier than the mean by what it draws. @param perDb kg/(m2 h) */
function suction(zone: ZoneWalk, { exposure }: Leg, perDb: number): number {
  if (exposure.suctionKgM2S === 0) return 0
  const left = Math.max(0, 1 - zone.boardKgM2 / exposure.suctionCapacityKgM2)
  const keen = exposure.suctionKgM2S * 3600 * left
  return Math.min(keen, (keen * Math.max(0, zone.db - SUCTION_ENDS_DB)) / (SUCTION_FADES_DB + keen / perDb))
}

/** Water crossing from the middle into the rim. */
function crossOver({ clay }: Walk, rim: ZoneWalk, middleDb: number, leg: Leg, hours: number): void {
  const here = lookUp(clay.liquid, rim.db)
  const there = lookUp(clay.liquid, middleDb)
  const perHour = waterMobility(rim.tempC) * leg.exposure.crossingPerM2 * clay.specificVolumeAsCut ** 2 * 3600
  const cross = ((2 * here * there) / (here + there)) * perHour * lookUp(clay.length, middleDb) ** 4 * hours
  rim.db = (rim.db + cross * middleDb) / (1 + cross)
}
