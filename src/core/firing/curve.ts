import { MIN_PER_HOUR } from '#core/units.ts'
import { type Cooling, cooledTempC, coolingMin } from './cooling.ts'
import { DEHYDROXYLATION_BAND, fastestCPerH, heatCapacityKjPerK, STEAM_BAND, wallLossKw } from './heat.ts'
import type { CurvePoint, FiringLoad, FiringSegment, KilnFiring } from './types.ts'

/** A curve as far as it is drawn. `slowedByPower`: somewhere the kiln could not keep the rate that was asked. */
export type Drawn = { readonly points: readonly CurvePoint[]; readonly slowedByPower: boolean }

/** Rates below this are no heating: the kiln has met its walls. */
const SLOWEST_C_PER_H = 1
/** Length of one step on a ramp: the kiln's power is taken as steady within it. */
const STEP_C = 10

/**
 * Heats through the segments as fast as they ask and the kiln can.
 * @returns the curve, or the temperature at which full power only just holds
 */
export function heated(
  start: CurvePoint,
  segments: readonly FiringSegment[],
  kiln: KilnFiring,
  load: FiringLoad,
): Drawn | { readonly stuckAtC: number } {
  const points: CurvePoint[] = [start]
  let slowedByPower = false
  for (const segment of segments) {
    for (const toC of stepsBetween(points.at(-1)!.tempC, segment.targetC)) {
      const from = points.at(-1)!
      const middleC = (from.tempC + toC) / 2
      const fastest = fastestCPerH(middleC, kiln, load)
      if (fastest < SLOWEST_C_PER_H) return { stuckAtC: from.tempC }
      if (fastest < segment.rateCPerH) slowedByPower = true
      const hours = (toC - from.tempC) / Math.min(fastest, segment.rateCPerH)
      const storedKwh = (heatCapacityKjPerK(middleC, kiln, load) * (toC - from.tempC)) / 3600
      points.push(later(from, 'heating', hours, toC, kiln.lossFactor * (storedKwh + wallLossKw(middleC, kiln) * hours)))
    }
    const from = points.at(-1)!
    const holdH = segment.holdMin / MIN_PER_HOUR
    if (holdH > 0) {
      points.push(later(from, 'holding', holdH, from.tempC, kiln.lossFactor * wallLossKw(from.tempC, kiln) * holdH))
    }
  }
  return { points, slowedByPower }
}

/** Cools through the segments under power, never faster than the kiln cools by itself. @param top the last point so far */
export function cooledUnderPower(
  top: CurvePoint,
  segments: readonly FiringSegment[],
  kiln: KilnFiring,
  tauH: number,
): CurvePoint[] {
  const points: CurvePoint[] = []
  let from = top
  for (const segment of segments) {
    for (const toC of stepsBetween(from.tempC, segment.targetC)) {
      const middleC = (from.tempC + toC) / 2
      const natural = (middleC - kiln.ambientC) / tauH
      const rate = Math.min(segment.rateCPerH, natural)
      const hours = (from.tempC - toC) / rate
      // The elements make up what the falling heat of kiln and load does not cover of the wall's loss.
      const kw = wallLossKw(middleC, kiln) * (1 - rate / natural)
      from = later(from, 'controlled-cooling', hours, toC, kiln.lossFactor * kw * hours)
      points.push(from)
    }
    const holdH = segment.holdMin / MIN_PER_HOUR
    if (holdH > 0) {
      from = later(from, 'holding', holdH, from.tempC, kiln.lossFactor * wallLossKw(from.tempC, kiln) * holdH)
      points.push(from)
    }
  }
  return points
}

/** Cools by itself. @returns points after `from`, close enough to draw; none when it is cool already */
export function cooledAlone(from: CurvePoint, toC: number, cooling: Cooling): CurvePoint[] {
  const totalMin = coolingMin(from.tempC, toC, cooling)
  if (totalMin === 0) return []
  const count = Math.max(1, Math.ceil((totalMin / (cooling.tauH * MIN_PER_HOUR)) * 12))
  return Array.from({ length: count }, (_, index) => {
    const elapsedMin = (totalMin * (index + 1)) / count
    const tempC = index + 1 === count ? toC : cooledTempC(from.tempC, elapsedMin, cooling)
    return { atMin: from.atMin + elapsedMin, tempC, phase: 'cooling', usedKwh: from.usedKwh }
  })
}

/** Ends of steps, so that none crosses the edge of a band in which water or kaolinite take heat. */
function stepsBetween(fromC: number, toC: number): number[] {
  const edges = [STEAM_BAND.lowC, STEAM_BAND.highC, DEHYDROXYLATION_BAND.lowC, DEHYDROXYLATION_BAND.highC, toC]
    .filter((edgeC) => (edgeC - fromC) * (edgeC - toC) <= 0 && edgeC !== fromC)
    .toSorted((a, b) => (toC > fromC ? a - b : b - a))
  const ends: number[] = []
  let startC = fromC
  for (const edgeC of new Set(edges)) {
    const count = Math.max(1, Math.ceil(Math.abs(edgeC - startC) / STEP_C))
    for (let k = 1; k < count; k++) ends.push(startC + ((edgeC - startC) * k) / count)
    ends.push(edgeC)
    startC = edgeC
  }
  return ends
}

const later = (
  from: CurvePoint,
  phase: CurvePoint['phase'],
  hours: number,
  tempC: number,
  kwh: number,
): CurvePoint => ({ atMin: from.atMin + hours * MIN_PER_HOUR, tempC, phase, usedKwh: from.usedKwh + kwh })
