import type { Sizes } from './problem.ts'

/** Most thresholds taken from the sides: their pairs take time, and more of them seldom prove more. */
const MOST_THRESHOLDS = 24

/**
 * Plates that no packing can do with fewer of: area, weighed by pairs of dual feasible functions, which count large
 * sides more than small ones without ever letting what fits on one plate weigh more than one.
 * Where turning is allowed each rectangle counts the way it weighs less, so the bound stays true.
 * @see Fekete & Schepers (2004), Math. Methods Oper. Res. 60, 311-329: functions u(k), U(eps) and phi(eps)
 */
export function leastPlates(sizes: Sizes): number {
  const { lengths, widths, plateLength, plateWidth, mayTurn } = sizes
  const sides = [...lengths, ...widths]
  const alongLength = weightsFor(sides, plateLength)
  const alongWidth = weightsFor(sides, plateWidth)
  const weigh = (weight: Weight, own: Float64Array, plate: number) => own.map((side) => weight(side / plate))
  const upright = alongLength.map((weight) => weigh(weight, lengths, plateLength))
  const uprightAcross = alongWidth.map((weight) => weigh(weight, widths, plateWidth))
  const turned = alongLength.map((weight) => weigh(weight, widths, plateLength))
  const turnedAcross = alongWidth.map((weight) => weigh(weight, lengths, plateWidth))
  const canStay = lengths.map((length, i) => Number(length <= plateLength && widths[i]! <= plateWidth))
  const canTurn = lengths.map((length, i) => Number(mayTurn && length <= plateWidth && widths[i]! <= plateLength))
  let most = 0
  for (let f = 0; f < alongLength.length; f++) {
    for (let g = 0; g < alongWidth.length; g++) {
      let sum = 0
      for (let i = 0; i < lengths.length; i++) {
        const one = canStay[i] ? upright[f]![i]! * uprightAcross[g]![i]! : Infinity
        sum += canTurn[i] ? Math.min(one, turned[f]![i]! * turnedAcross[g]![i]!) : one
      }
      most = Math.max(most, sum)
    }
  }
  return Math.max(0, Math.ceil(most - 1e-9))
}

/** Weight of a side given as a share of the plate's. */
type Weight = (share: number) => number

function weightsFor(sides: readonly number[], plate: number): Weight[] {
  const shares = [...new Set(sides.filter((side) => side <= plate / 2).map((side) => side / plate))]
  const stride = Math.max(1, shares.length / MOST_THRESHOLDS)
  const thresholds = shares
    .toSorted((a, b) => a - b)
    .filter((_, i) => Math.floor(i / stride) !== Math.floor((i - 1) / stride))
  return [(share) => share, ...[1, 2, 3].map(steps), ...thresholds.map(largeOnly), ...thresholds.map(stepped)]
}

/** u(k): a share that is no multiple of 1 / (k + 1) is rounded down to a k-th of the next lower multiple. */
const steps =
  (k: number): Weight =>
  (share) => {
    const scaled = (k + 1) * share
    return Math.abs(scaled - Math.round(scaled)) < 1e-9 ? share : Math.floor(scaled) / k
  }

/** U(eps): more than 1 - eps counts as all, less than eps as nothing. */
const largeOnly =
  (least: number): Weight =>
  (share) =>
    share > 1 - least + 1e-12 ? 1 : share >= least - 1e-12 ? share : 0

/** phi(eps): less than eps counts as nothing, the middle as the least step, the rest as what these steps leave of one. */
const stepped = (least: number): Weight => {
  const most = Math.floor(1 / least + 1e-9)
  return (share) => {
    if (share < least - 1e-12) return 0
    return share > 0.5 + 1e-12 ? 1 - Math.floor((1 - share) / least + 1e-9) / most : 1 / most
  }
}
