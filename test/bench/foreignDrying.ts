/**
 * A world to try the drying model on, made on purpose of other stuff: it imports nothing of the model, knows one mean
 * moisture and a power law inside, a wind function over the face, its own isotherm and its own saturation formula.
 * How it strays from what the model believes: diffusivity by a factor of 3, leaks of covers by 4, thickness by 8 %, the
 * film by a third, and the studio's hygrometer reads up to 5 points off.
 */
export type ForeignClay = {
  readonly startDb: number
  readonly leatherHardDb: number
  readonly firmDb: number
  readonly diffusivityM2S: number
  readonly thicknessFactor: number
  readonly filmFactor: number
  readonly leakFactor: number
  /** The same of a sheet that is tucked in. */
  readonly tuckedLeakFactor: number
  /** What the studio's hygrometer adds to the true humidity. */
  readonly rhBias: number
}

/** Uniform in [0, 1). */
type Chance = () => number

const between = (chance: Chance, low: number, high: number): number => low + (high - low) * chance()
/** Evenly by factor, from 1/most to most. */
const byFactor = (chance: Chance, most: number): number => Math.exp(between(chance, -Math.log(most), Math.log(most)))

/** @param leaks whether one factor moves the leaks of all covers, or a sheet leaks another way when it is tucked in */
export function foreignClay(chance: Chance, leaks: 'alike' | 'apart' = 'alike'): ForeignClay {
  const leakFactor = byFactor(chance, 4)
  const feel = between(chance, -0.02, 0.02)
  return {
    startDb: between(chance, 0.23, 0.27),
    leatherHardDb: 0.175 + feel,
    firmDb: 0.15 + feel,
    diffusivityM2S: 4e-9 * byFactor(chance, 3),
    thicknessFactor: between(chance, 0.92, 1.08),
    filmFactor: byFactor(chance, 1.4),
    leakFactor,
    tuckedLeakFactor: leaks === 'alike' ? leakFactor : byFactor(chance, 4),
    rhBias: between(chance, -0.05, 0.05),
  }
}

export type ForeignAir = { readonly tempC: number; readonly rh: number }
export type ForeignCover = 'open' | 'cloth' | 'loose' | 'tucked'

/** Permeance of covers in kg/(m2 s Pa), before the leak factor. */
const permeance: Readonly<Record<ForeignCover, number>> = { open: Infinity, cloth: 1e-8, loose: 4e-9, tucked: 2e-10 }
const DRY_DENSITY = 1600
const STEP_MIN = 10

/** Magnus' formula. @see Alduchov & Eskridge (1996), eq. 21 */
const saturationPa = (tempC: number): number => 610.94 * Math.exp((17.625 * tempC) / (tempC + 243.04))

/** A sigmoid that falls off below three points of moisture. */
const dampness = (moistureDb: number): number => moistureDb ** 2 / (moistureDb ** 2 + 0.018 ** 2)

/**
 * Mean moisture every ten minutes from the cut on.
 * @param coverAt what lies over the ware, by minute since the cut and the mean moisture the hand feels then
 */
export function foreignDrying(
  clay: ForeignClay,
  thicknessMm: number,
  minutes: number,
  airAt: (minute: number) => ForeignAir,
  coverAt: (minute: number, meanDb: number) => ForeignCover,
): number[] {
  const massKgM2 = (thicknessMm / 1000) * clay.thicknessFactor * DRY_DENSITY
  let meanDb = clay.startDb
  const means = [meanDb]
  for (let minute = 0; minute < minutes; minute += STEP_MIN) {
    const air = airAt(minute)
    const kind = coverAt(minute, meanDb)
    const cover = permeance[kind] * (kind === 'tucked' ? clay.tuckedLeakFactor : clay.leakFactor)
    meanDb = Math.max(0.002, meanDb - (fluxKgM2S(clay, meanDb, massKgM2, air, cover) * STEP_MIN * 60) / massKgM2)
    means.push(meanDb)
  }
  return means
}

/** What leaves the upper face: a wind function in series with the cover, cooled by itself, fed from inside. */
function fluxKgM2S(clay: ForeignClay, meanDb: number, massKgM2: number, air: ForeignAir, cover: number): number {
  const film = 1.85e-8 * clay.filmFactor
  const passes = 1 / (1 / film + 1 / cover)
  const vapourPa = air.rh * saturationPa(air.tempC)
  // Psychrometer-like cooling: heat of 11 W/(m2 K) pays for the water's 2.45 MJ/kg.
  const slope = (saturationPa(air.tempC) - saturationPa(air.tempC - 3)) / 3
  const wet = (passes * (saturationPa(air.tempC) - vapourPa)) / (1 + (passes * slope * 2.45e6) / 11)
  const conducts = (2.5 * clay.diffusivityM2S * (meanDb / 0.2) ** 2 * DRY_DENSITY ** 2) / massKgM2
  let low = 0
  let high = meanDb
  for (let step = 0; step < 20; step++) {
    const faceDb = (low + high) / 2
    const leaves = wet * ((dampness(faceDb) - air.rh) / (1 - air.rh))
    if (leaves > conducts * (meanDb - faceDb)) high = faceDb
    else low = faceDb
  }
  return conducts * (meanDb - (low + high) / 2)
}

/** First minute at which means of ten-minute steps have fallen to a moisture; Infinity if not. */
export function foreignFallsTo(means: readonly number[], moistureDb: number): number {
  const at = means.findIndex((db) => db <= moistureDb)
  if (at <= 0) return at === 0 ? 0 : Infinity
  const share = (means[at - 1]! - moistureDb) / (means[at - 1]! - means[at]!)
  return (at - 1 + share) * STEP_MIN
}
