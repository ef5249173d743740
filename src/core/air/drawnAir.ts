import { seededRng } from '../rng.ts'
import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import type { Air, AirAt, AirOutlook, OutlookDraw } from './types.ts'

/** Weather is drawn every six hours and carried over; its departures fade over a day and a quarter, as in the outlook. */
const KNOT_HOURS = 6
const PERSISTENCE = Math.exp(-KNOT_HOURS / 30)

/**
 * The air of an outlook in one draw: its middle, moved by what lasts (as far as the draw says) and by weather that the
 * draw's seed makes, together as wide as the outlook's spread at each hour.
 */
export function drawnAir(outlook: AirOutlook, draw: OutlookDraw): AirAt {
  const hourCount = outlook.tempC.length
  const rng = seededRng(draw.seed)
  const stays = draw.seed === 0 ? 0 : 1
  const warm = weather(hourCount, rng.normal)
  const damp = weather(hourCount, rng.normal)
  const tempC = new Float64Array(hourCount)
  const rh = new Float64Array(hourCount)
  for (let i = 0; i < hourCount; i++) {
    const tempLastingK = outlook.tempLastingK[i]!
    const rhLasting = outlook.rhLasting[i]!
    const tempPassingK = Math.sqrt(Math.max(0, outlook.tempSpreadK[i]! ** 2 - tempLastingK ** 2)) * stays
    const rhPassing = Math.sqrt(Math.max(0, outlook.rhSpread[i]! ** 2 - rhLasting ** 2)) * stays
    tempC[i] = outlook.tempC[i]! + tempLastingK * draw.warmth + tempPassingK * warm[i]!
    rh[i] = Math.min(0.99, Math.max(0.03, outlook.rh[i]! + rhLasting * draw.damp + rhPassing * damp[i]!))
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

/** A standard normal departure per hour that fades with distance. */
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
