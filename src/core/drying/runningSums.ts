import { lookUp, type ClayTable } from './clayTable.ts'
import type { Demand } from './demand.ts'
import { gainBetween, valueAt, type Leg } from './legs.ts'

/** A part's middle on its way, as far as running sums tell it. */
export type Walk = {
  readonly clay: ClayTable
  readonly massKgM2: number
  readonly legs: readonly Leg[]
  readonly startDb: number
  readonly startTempC: number
  /** Heat capacity, J/(m2 K): cooling down to the wet temperature gives off water too. */
  readonly heat: number
}

/** Where a sum was reached: the hour, and how fast water was leaving then, kg/(m2 h). */
export type Reached = { readonly hour: number; readonly kgM2H: number }

/** Latent heat of water at 18 °C, J/kg. */
const MEAN_LATENT_HEAT = 2.459e6

const NEVER: Reached = { hour: Infinity, kgM2H: 0 }

/** When the mean has fallen to a moisture below the start's; hour Infinity if it has not by the end of the last leg. */
export function hourAtMoisture(walk: Walk, moistureDb: number): Reached {
  const { clay, massKgM2, startDb } = walk
  const wantedKgM2 = massKgM2 * (lookUp(clay.toGiveOff, startDb) - lookUp(clay.toGiveOff, moistureDb))
  let givenOff = 0
  let tempC = walk.startTempC
  for (const leg of walk.legs) {
    givenOff -= leg.dampenedKgM2
    const reached = hourInLeg(walk, leg, tempC, givenOff, wantedKgM2)
    if (reached.hour <= leg.toHour) return reached
    givenOff += givenInLeg(walk, leg, tempC, leg.toHour)
    tempC = valueAt(leg.demand.wetTempC, leg.toHour)
  }
  return NEVER
}

/** What a part gives off from a leg's start to an hour, cooling down (or warming up) from the temperature it came with. */
function givenInLeg(walk: Walk, { demand, fromHour }: Leg, cameC: number, hour: number): number {
  return gainBetween(demand.running, fromHour, hour) + cooledKgM2(walk, demand, cameC - valueAt(demand.wetTempC, hour))
}

const cooledKgM2 = ({ heat }: Walk, { heatShare }: Demand, cooledK: number): number =>
  (heat * heatShare * cooledK) / MEAN_LATENT_HEAT

/** First hour within a leg at which enough has been given off. Sums rise, so halving finds it. */
function hourInLeg(walk: Walk, leg: Leg, cameC: number, before: number, wantedKgM2: number): Reached {
  const { running, wetTempC, heatShare } = leg.demand
  const coolsKgM2K = (walk.heat * heatShare) / MEAN_LATENT_HEAT
  const base = before - valueAt(running, leg.fromHour) + coolsKgM2K * cameC
  let low = leg.fromHour
  let high = leg.toHour
  let atHigh = base + valueAt(running, high) - coolsKgM2K * valueAt(wetTempC, high)
  if (atHigh < wantedKgM2) return NEVER
  let atLow = before
  // Down to one whole hour, over which sums grow evenly.
  let whole = Math.floor(low) + 1
  while (whole > low && whole < high) {
    const atWhole = base + running[whole]! - coolsKgM2K * wetTempC[whole]!
    if (atWhole < wantedKgM2) {
      low = whole
      atLow = atWhole
    } else {
      high = whole
      atHigh = atWhole
    }
    whole = (Math.floor(low) + Math.ceil(high)) >> 1
  }
  const kgM2H = high > low ? (atHigh - atLow) / (high - low) : 0
  return {
    hour: atLow >= wantedKgM2 ? low : Math.min(high, low + (wantedKgM2 - atLow) / Math.max(kgM2H, 1e-12)),
    kgM2H,
  }
}

/** The mean's moisture at an hour. */
export function moistureAtHour(walk: Walk, hour: number): number {
  const { clay, massKgM2, startDb } = walk
  let givenOff = 0
  let tempC = walk.startTempC
  for (const leg of walk.legs) {
    if (hour < leg.fromHour) break
    const untilHour = Math.min(hour, leg.toHour)
    givenOff += givenInLeg(walk, leg, tempC, untilHour) - leg.dampenedKgM2
    tempC = valueAt(leg.demand.wetTempC, untilHour)
  }
  const left = lookUp(clay.toGiveOff, startDb) - givenOff / massKgM2
  // Lengths hardly change, so a few corrections from the start find the moisture with this much left.
  let moistureDb = Math.max(0, startDb - givenOff / massKgM2)
  for (let step = 0; step < 4; step++) {
    moistureDb = Math.max(
      0,
      moistureDb + (left - lookUp(clay.toGiveOff, moistureDb)) * lookUp(clay.length, moistureDb) ** 2,
    )
  }
  return Math.min(moistureDb, Math.max(startDb, moistureDb))
}
