import { ANGLE_STEPS } from './types.ts'

const EIGHTH = ANGLE_STEPS / 8
const QUARTER = ANGLE_STEPS / 4

/**
 * Cosine of a whole step of the angle table. Summed from sums and products alone, which every engine rounds alike,
 * so that a load is the same on every machine; exact at quarter turns, else within 2e-16.
 */
export function cosOf(angleIndex: number): number {
  return COSINES[stepOf(angleIndex)]!
}

/** Sine of a whole step of the angle table; see `cosOf`. */
export function sinOf(angleIndex: number): number {
  return COSINES[stepOf(angleIndex - QUARTER)]!
}

/** Any whole number of steps brought into [0, ANGLE_STEPS). */
export function stepOf(angleIndex: number): number {
  const step = angleIndex % ANGLE_STEPS
  return step < 0 ? step + ANGLE_STEPS : step
}

/** Unit vector `part` of the way round, for shapes whose sides do not divide the table. */
export function directionOf(part: number): readonly [number, number] {
  const angleRad = part * 2 * Math.PI
  const quarters = Math.round(angleRad / (Math.PI / 2))
  const rest = angleRad - quarters * (Math.PI / 2)
  const c = cosineNearZero(rest)
  const s = sineNearZero(rest)
  switch (((quarters % 4) + 4) % 4) {
    case 0:
      return [c, s]
    case 1:
      return [-s, c]
    case 2:
      return [-c, -s]
    default:
      return [s, -c]
  }
}

function cosineNearZero(x: number): number {
  let term = 1
  let sum = 1
  for (let k = 2; k <= 22; k += 2) {
    term *= (-x * x) / (k * (k - 1))
    sum += term
  }
  return sum
}

function sineNearZero(x: number): number {
  let term = x
  let sum = x
  for (let k = 3; k <= 23; k += 2) {
    term *= (-x * x) / (k * (k - 1))
    sum += term
  }
  return sum
}

const COSINES = cosineTable()

function cosineTable(): Float64Array {
  const table = new Float64Array(ANGLE_STEPS)
  const firstQuarter = (step: number): number =>
    step <= EIGHTH
      ? cosineNearZero((step * 2 * Math.PI) / ANGLE_STEPS)
      : sineNearZero(((QUARTER - step) * 2 * Math.PI) / ANGLE_STEPS)
  for (let step = 0; step < ANGLE_STEPS; step++) {
    const fromAxis = step <= ANGLE_STEPS / 2 ? step : ANGLE_STEPS - step
    table[step] = fromAxis <= QUARTER ? firstQuarter(fromAxis) : -firstQuarter(ANGLE_STEPS / 2 - fromAxis)
  }
  return table
}
