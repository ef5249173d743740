import { seededRng } from '../rng.ts'
import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import { SENSOR_BIAS } from './readings.ts'
import type { Air, AirAt, AirOutlook, OutlookDraw } from './types.ts'

/** Weather changes over about two days: noise is drawn every six hours and carried over. */
const KNOT_HOURS = 6
const PERSISTENCE = Math.exp(-KNOT_HOURS / 48)
/** Of what remains beside the sensors' bias, the share of variance that lasts (a warm spell); the rest comes and goes. */
const LASTING_SHARE = 0.4

/**
 * The air of an outlook in one draw: its middle, moved by the sensor's bias and by spells and weather that the draw's seed
 * makes, together as wide as the outlook's spread at each hour.
 */
export function drawnAir(outlook: AirOutlook, draw: OutlookDraw): AirAt {
  const hourCount = outlook.tempC.length
  const rng = seededRng(draw.seed)
  const stays = draw.seed === 0 ? 0 : 1
  const warm = straying(hourCount, rng.normal)
  const damp = straying(hourCount, rng.normal)
  const tempC = new Float64Array(hourCount)
  const rh = new Float64Array(hourCount)
  for (let i = 0; i < hourCount; i++) {
    const tempBias = Math.min(SENSOR_BIAS.tempK, outlook.tempSpreadK[i]!)
    const rhBias = Math.min(SENSOR_BIAS.rh, outlook.rhSpread[i]!)
    const tempRest = Math.sqrt(outlook.tempSpreadK[i]! ** 2 - tempBias ** 2) * stays
    const rhRest = Math.sqrt(outlook.rhSpread[i]! ** 2 - rhBias ** 2) * stays
    tempC[i] = outlook.tempC[i]! + tempBias * draw.warmth + tempRest * warm[i]!
    rh[i] = Math.min(0.99, Math.max(0.03, outlook.rh[i]! + rhBias * draw.damp + rhRest * damp[i]!))
  }
  return readHourly(outlook.startMin, tempC, rh, outlook.airSpeedMS)
}

/** The middle of an outlook, as if nothing strayed. */
export const middleAir = (outlook: AirOutlook): AirAt =>
  readHourly(outlook.startMin, outlook.tempC, outlook.rh, outlook.airSpeedMS)

type Series = { readonly [hour: number]: number; readonly length: number }

/** Air between hourly values by proportion; before the first and after the last hour, that hour's. */
function readHourly(startMin: Minute, tempC: Series, rh: Series, airSpeedMS: Series): AirAt {
  const last = tempC.length - 1
  return (minute): Air => {
    const place = Math.min(last, Math.max(0, (minute - startMin) / MIN_PER_HOUR))
    const hour = Math.min(last, Math.floor(place))
    const next = Math.min(last, hour + 1)
    const share = place - hour
    const between = (series: Series): number => series[hour]! + share * (series[next]! - series[hour]!)
    return { tempC: between(tempC), rh: between(rh), airSpeedMS: between(airSpeedMS) }
  }
}

/** A standard normal departure per hour: part of it lasts, part fades over two days. */
function straying(hourCount: number, normal: () => number): Float64Array {
  const spell = Math.sqrt(LASTING_SHARE) * normal()
  const passing = Math.sqrt(1 - LASTING_SHARE)
  return weather(hourCount, normal).map((departure) => spell + passing * departure)
}

/** A standard normal departure per hour that fades over two days. */
function weather(hourCount: number, normal: () => number): Float64Array {
  const series = new Float64Array(hourCount)
  const fresh = Math.sqrt(1 - PERSISTENCE ** 2)
  let from = normal()
  let to = PERSISTENCE * from + fresh * normal()
  for (let i = 0; i < hourCount; i++) {
    const share = (i % KNOT_HOURS) / KNOT_HOURS
    if (i > 0 && share === 0) {
      from = to
      to = PERSISTENCE * from + fresh * normal()
    }
    series[i] = from + share * (to - from)
  }
  return series
}
