import { kelvinOf, MIN_PER_HOUR } from '#core/units.ts'
import { type Cone, type ConeWork, cones, coneWorkOf } from './cones.ts'

/** How far an estimate of heat work may be off, either way: published soak evidence pulls both ways by about this. */
export const HEAT_WORK_SPREAD_C = 25

type TimedTemp = { readonly atMin: number; readonly tempC: number }

/** An estimate, about one cone either way. Only a witness cone says that a cone was reached. */
export type ConeEstimate = {
  /** Absent where even the first cone would still stand. */
  readonly likely: Cone | undefined
  /** The same if all temperatures were `HEAT_WORK_SPREAD_C` lower, and higher. */
  readonly atLeast: Cone | undefined
  readonly atMost: Cone | undefined
  readonly spreadC: number
}

/**
 * The cone that a firing's heat work would bring down. Show it with its span and as an estimate, never as reached.
 * @param readings temperatures over time, joined by straight lines
 * @param offsetC what the kiln's witness cones have taught about its readings
 */
export function estimatedCone(readings: readonly TimedTemp[], offsetC = 0): ConeEstimate {
  const shifted = (byC: number) => readings.map(({ atMin, tempC }) => ({ atMin, tempC: tempC + byC }))
  return {
    likely: lastConeDown(shifted(offsetC)),
    atLeast: lastConeDown(shifted(offsetC - HEAT_WORK_SPREAD_C)),
    atMost: lastConeDown(shifted(offsetC + HEAT_WORK_SPREAD_C)),
    spreadC: HEAT_WORK_SPREAD_C,
  }
}

/**
 * Heat work done on a cone as a share of what brings it down: (1/K) ∫ exp(-E / RT) dt.
 * @returns 1 when the cone is just down; at 60 °C/h within 0.2 °C of the sheet, within 6.1 °C at 15 and 150 °C/h
 * @see `coneTable` for E and K, one pair for each cone: one E for all errs by up to 34 °C
 */
export const heatWorkRatio = (cone: Cone, readings: readonly TimedTemp[]): number =>
  Math.exp(lnWorkDoneH(coneWorkOf(cone).energyKjPerMol, readings) - coneWorkOf(cone).lnWorkH)

/**
 * The top temperature that brings a cone down after one steady ramp and a hold.
 * @param ramp rate more than 0, hold 0 or more
 * @returns °C by the model; between 200 and 1600
 */
export function peakForConeC(work: ConeWork, ramp: { readonly rateCPerH: number; readonly holdMin: number }): number {
  let lowC = 200
  let highC = 1600
  while (highC - lowC > 0.01) {
    const middleC = (lowC + highC) / 2
    const topMin = ((middleC - START_C) / ramp.rateCPerH) * MIN_PER_HOUR
    const readings = [
      { atMin: 0, tempC: START_C },
      { atMin: topMin, tempC: middleC },
      { atMin: topMin + ramp.holdMin, tempC: middleC },
    ]
    if (lnWorkDoneH(work.energyKjPerMol, readings) < work.lnWorkH) lowC = middleC
    else highC = middleC
  }
  return (lowC + highC) / 2
}

/**
 * What a witness cone that just went down says of a kiln's readings: so many °C more, and the model has it down as well.
 * @returns for `KilnFiring.readingOffsetC`; within `MOST_OFFSET_K` either way, past which a kiln wants mending, not learning
 */
export function offsetFromWitness(cone: Cone, readings: readonly TimedTemp[]): number {
  let low = -MOST_OFFSET_K
  let high = MOST_OFFSET_K
  while (high - low > 0.01) {
    const middle = (low + high) / 2
    const shifted = readings.map(({ atMin, tempC }) => ({ atMin, tempC: tempC + middle }))
    if (heatWorkRatio(cone, shifted) < 1) low = middle
    else high = middle
  }
  return (low + high) / 2
}

const MOST_OFFSET_K = 60
const START_C = 20
const GAS_CONSTANT_KJ = 8.314462618e-3
/** Simpson's rule on pieces this long is good to 1e-5 for the steepest cone. */
const STEP_C = 2
/** Work at exp(-30) of the hottest moment's rate counts for nothing. */
const NEGLIGIBLE = 30

/** The cone before the first one that still stands: past that, an odd fit further up cannot mislead. */
function lastConeDown(readings: readonly TimedTemp[]): Cone | undefined {
  const standing = cones.findIndex((cone) => heatWorkRatio(cone, readings) < 1)
  return standing < 0 ? cones.at(-1) : cones[standing - 1]
}

/** Logarithm of the integral in hours, taken relative to the hottest moment so that nothing underflows. */
function lnWorkDoneH(energyKjPerMol: number, readings: readonly TimedTemp[]): number {
  const exponentAt = (tempC: number): number => energyKjPerMol / (GAS_CONSTANT_KJ * kelvinOf(tempC))
  const least = exponentAt(Math.max(...readings.map(({ tempC }) => tempC)))
  const speedAt = (tempC: number): number => Math.exp(least - exponentAt(tempC))
  let sumH = 0
  for (let i = 1; i < readings.length; i++) {
    const from = readings[i - 1]!
    const to = readings[i]!
    if (exponentAt(Math.max(from.tempC, to.tempC)) - least > NEGLIGIBLE) continue
    const steps = Math.max(1, Math.ceil(Math.abs(to.tempC - from.tempC) / STEP_C))
    const stepH = (to.atMin - from.atMin) / MIN_PER_HOUR / steps
    const stepC = (to.tempC - from.tempC) / steps
    for (let k = 0; k < steps; k++) {
      const startC = from.tempC + k * stepC
      sumH += (stepH / 6) * (speedAt(startC) + 4 * speedAt(startC + stepC / 2) + speedAt(startC + stepC))
    }
  }
  return Math.log(sumH) - least
}
