import { seededRng, type Rng } from '../rng.ts'
import { plus, times } from './clay.ts'
import { coverKinds, defaultPermeance, LEAKS_ALIKE, leakyKinds } from './covers.ts'
import type { ClayDrying, CoverKind, Draw, Uncertain } from './types.ts'

/** All that is believed of a clay and a studio, each with how far it may stray. */
export type DryingBeliefs = {
  readonly clay: ClayDrying
  readonly permeance: Readonly<Record<CoverKind, Uncertain>>
  /** k_air of a spot: how much faster ware dries there than the film's formula says. */
  readonly airFactor: Uncertain
  /** Spots that are known better than that. */
  readonly airFactorBySpot: Readonly<Record<string, Uncertain>>
  /** Thickness as rolled over thickness as meant. */
  readonly thicknessFactor: Uncertain
  readonly rackShare: Uncertain
  readonly absorbentKgM2H: Uncertain
  readonly absorbentCapacityKgM2: Uncertain
  readonly cupboardRh: Uncertain
  /** What is known only together: air and leak of a studio that has weighed only covered ware, about -0.95. */
  readonly correlations?: readonly Correlation[]
}

/** Two beliefs by name (a field, `permeance.loose`, `airFactorBySpot.rack`) and how they go together, -1 to 1. */
export type Correlation = { readonly a: string; readonly b: string; readonly rho: number }

/** What a studio believes before it has logged anything. Spreads are about half the ranges given with each default. */
export const priorBeliefs = (clay: ClayDrying): DryingBeliefs => ({
  clay,
  permeance: defaultPermeance,
  airFactor: times(1, 0.22),
  airFactorBySpot: {},
  thicknessFactor: times(1, 0.04),
  rackShare: plus(0.7, 0.08),
  absorbentKgM2H: times(0.25, 0.35),
  absorbentCapacityKgM2: times(2, 0.35),
  cupboardRh: plus(0.98, 0.004),
  correlations: leaksAlike(),
})

function leaksAlike(): Correlation[] {
  return leakyKinds.flatMap((a, i) =>
    leakyKinds.slice(i + 1).map((b) => ({ a: `permeance.${a}`, b: `permeance.${b}`, rho: LEAKS_ALIKE })),
  )
}

/**
 * Joint draws of everything that is uncertain, the same for every question asked with them. Each quantity is spread
 * evenly over its own range (a Latin hypercube), so that few draws already have the right middle and width; the n-th
 * draw with the same seed, count and beliefs is always the same.
 * @param count 1 or more; 32 for search, 500 and more for odds that are shown
 * @see McKay, Beckman & Conover (1979); correlations by Iman & Conover's rotation of the normal scores (1982)
 */
export function jointDraws(beliefs: DryingBeliefs, count: number, seed: number): Draw[] {
  const rng = seededRng(seed)
  const named = namedBeliefs(beliefs)
  const scores = named.map(() => evenScores(count, rng))
  const warmth = evenScores(count, rng)
  const damp = evenScores(count, rng)
  const rotation = rotationOf(
    named.map(({ name }) => name),
    beliefs.correlations ?? [],
  )
  return Array.from({ length: count }, (_, index) => {
    const own = scores.map((column) => column[index]!)
    const rotated = rotation ? rotation.map((row) => row.reduce((sum, weight, i) => sum + weight * own[i]!, 0)) : own
    const value = new Map(named.map(({ name, belief }, i) => [name, drawn(belief, rotated[i]!)]))
    const outlook = { warmth: warmth[index]!, damp: damp[index]!, seed: rng.int(2 ** 31) }
    return toDraw(index, beliefs, (name) => value.get(name)!, outlook)
  })
}

/** The draw in which everything is as believed: for curves and what-ifs, never for odds. */
export function middleDraw(beliefs: DryingBeliefs): Draw {
  const belief = new Map(namedBeliefs(beliefs).map((named) => [named.name, named.belief]))
  return toDraw(0, beliefs, (name) => belief.get(name)!.value, { warmth: 0, damp: 0, seed: 0 })
}

function drawn({ value, spread, kind }: Uncertain, score: number): number {
  switch (kind) {
    case 'plus':
      return value + spread * score
    case 'times':
      return value * Math.exp(spread * score)
    case 'evenly':
      return value * Math.exp(spread * Math.sqrt(3) * (2 * normalShare(score) - 1))
  }
}

type Named = { readonly name: string; readonly belief: Uncertain }

function namedBeliefs(beliefs: DryingBeliefs): Named[] {
  const { clay, permeance, airFactorBySpot } = beliefs
  const plain = [
    'airFactor',
    'thicknessFactor',
    'rackShare',
    'absorbentKgM2H',
    'absorbentCapacityKgM2',
    'cupboardRh',
  ] as const
  return [
    ...Object.entries(clay).map(([name, belief]) => ({ name, belief })),
    ...plain.map((name) => ({ name, belief: beliefs[name] })),
    ...coverKinds.map((cover) => ({ name: `permeance.${cover}`, belief: permeance[cover] })),
    ...Object.entries(airFactorBySpot).map(([spot, belief]) => ({ name: `airFactorBySpot.${spot}`, belief })),
  ]
}

/**
 * Values beyond what clay and air can be are brought back to the nearest that can: a draw never breaks the model.
 * The start moisture stays above the end of shrinkage.
 */
function toDraw(
  index: number,
  beliefs: DryingBeliefs,
  value: (name: string) => number,
  outlook: Draw['outlook'],
): Draw {
  const bodyMoistureDb = within(beliefs.clay.startMoistureDb.value, 0.1, 0.6)
  const endOfShrinkageDb = within(value('endOfShrinkageDb'), 0.03, bodyMoistureDb - 0.03)
  const permeance = Object.fromEntries(
    coverKinds.map((cover) => [cover, Math.max(1e-13, value(`permeance.${cover}`))]),
  ) as Record<CoverKind, number>
  return {
    index,
    startMoistureDb: within(value('startMoistureDb'), endOfShrinkageDb + 0.01, 0.6),
    bodyMoistureDb,
    endOfShrinkageDb,
    oswinA: within(value('oswinA'), 0.002, 0.06),
    oswinB: within(value('oswinB'), 0.2, 0.7),
    wetDiffusivityM2S: within(value('wetDiffusivityM2S'), 1e-11, 1e-6),
    diffusivityFall: within(value('diffusivityFall'), 0, 10),
    vapourPermeability: within(value('vapourPermeability'), 1e-13, 2e-10),
    rimFactor: within(value('rimFactor'), 1, 4),
    feelShiftDb: within(value('feelShiftDb'), -0.04, 0.04),
    thicknessFactor: within(value('thicknessFactor'), 0.5, 2),
    airFactor: within(value('airFactor'), 0.05, 20),
    airFactorBySpot: Object.fromEntries(
      Object.keys(beliefs.airFactorBySpot).map((spot) => [spot, within(value(`airFactorBySpot.${spot}`), 0.05, 20)]),
    ),
    permeance,
    rackShare: within(value('rackShare'), 0, 1),
    absorbentKgM2H: within(value('absorbentKgM2H'), 0, 10),
    absorbentCapacityKgM2: within(value('absorbentCapacityKgM2'), 0, 50),
    cupboardRh: within(value('cupboardRh'), 0.9, 0.995),
    outlook,
  }
}

const within = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value))

/** Normal scores, one from each of `count` equally likely strata, in shuffled order. */
function evenScores(count: number, rng: Rng): number[] {
  const scores = Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5 + 0.9 * (rng.next() - 0.5)) / count))
  for (let i = count - 1; i > 0; i--) {
    const j = rng.int(i + 1)
    const held = scores[i]!
    scores[i] = scores[j]!
    scores[j] = held
  }
  return scores
}

/**
 * Quantile of the standard normal distribution. @param share strictly between 0 and 1
 * @returns within 1.2e-9 relative
 * @see P. J. Acklam's rational approximation (2003)
 */
export function normalQuantile(share: number): number {
  const a = [
    -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239,
  ]
  const b = [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572, 1]
  const c = [
    -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
    2.938163982698783,
  ]
  const d = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1]
  const horner = (coefficients: readonly number[], x: number): number =>
    coefficients.reduce((sum, next) => sum * x + next, 0)
  if (share < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(share))
    return horner(c, q) / horner(d, q)
  }
  if (share > 1 - 0.02425) return -normalQuantile(1 - share)
  const q = share - 0.5
  return (horner(a, q * q) * q) / horner(b, q * q)
}

/**
 * Share of the standard normal distribution below a score.
 * @returns within 7.5e-8
 * @see Abramowitz & Stegun (1964), 26.2.17
 */
export function normalShare(score: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(score))
  const coefficients = [1.330274429, -1.821255978, 1.781477937, -0.356563782, 0.31938153, 0]
  const density = Math.exp(-(score * score) / 2) / Math.sqrt(2 * Math.PI)
  const beyond = density * coefficients.reduce((sum, next) => sum * t + next, 0)
  return score > 0 ? 1 - beyond : beyond
}

/** Lower triangle that turns independent scores into correlated ones; undefined when nothing is correlated. */
function rotationOf(names: readonly string[], correlations: readonly Correlation[]): number[][] | undefined {
  if (correlations.length === 0) return undefined
  const matrix = names.map((_, i) => names.map((__, j): number => (i === j ? 1 : 0)))
  for (const { a, b, rho } of correlations) {
    const i = names.indexOf(a)
    const j = names.indexOf(b)
    if (i < 0 || j < 0 || i === j) continue
    matrix[i]![j] = matrix[j]![i] = within(rho, -0.999, 0.999)
  }
  return cholesky(matrix)
}

/** Cholesky factor; a pivot that is not positive (beliefs at odds with each other) is taken as nearly nothing left. */
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const factor = matrix.map((row) => row.map(() => 0))
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!
      factor[i]![j] = i === j ? Math.sqrt(Math.max(sum, 1e-9)) : sum / factor[j]![j]!
    }
  }
  return factor
}
