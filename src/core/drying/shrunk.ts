import type { Minute } from '../time.ts'
import { firmnessThresholdDb, linearShrinkage } from './clay.ts'
import type { Draw, Trajectory } from './types.ts'
import { fallsTo } from './windows.ts'

/**
 * How far a slab has shrunk when it is trued, as a share of its wet length: a template laid on then belongs to that
 * state. For a body of 6 % drying shrinkage about 2 % when soft, about 4 % when leather hard.
 */
export const shrunkWhen = (firmness: 'soft' | 'leather hard', draw: Draw): number =>
  linearShrinkage(firmnessThresholdDb(firmness, draw), draw.startMoistureDb, draw.endOfShrinkageDb)

/** On a hump ware grips once it has shrunk by this since it was laid on (assumption: a good millimetre in 150). */
export const HUMP_GRIPS_RATIO = 0.01

/**
 * Latest whole minute at which ware can come off a hump mould: before it has shrunk tight.
 * @param drapedMin when it was laid on
 * @param gripsRatio shrinkage since then at which it grips
 * @returns Infinity if it does not get there within the trajectory
 */
export function latestReleaseMin(
  trajectory: Trajectory,
  draw: Draw,
  drapedMin: Minute,
  gripsRatio = HUMP_GRIPS_RATIO,
): number {
  const { minute, meanDb } = trajectory
  const from = minute.findLastIndex((at) => at <= drapedMin)
  const drapedDb = meanDb[Math.max(0, from)]!
  const shrunkAtDrape = linearShrinkage(drapedDb, draw.startMoistureDb, draw.endOfShrinkageDb)
  const gripsDb = moistureShrunkBy(shrunkAtDrape + gripsRatio, draw)
  return Math.floor(fallsTo(minute, meanDb, gripsDb))
}

/** Moisture at which the wet length has shrunk by a share; the end of shrinkage if it never does. */
function moistureShrunkBy(shareRatio: number, draw: Draw): number {
  let dry = draw.endOfShrinkageDb
  let wet = draw.startMoistureDb
  if (linearShrinkage(dry, wet, dry) <= shareRatio) return dry
  for (let step = 0; step < 40; step++) {
    const middle = (dry + wet) / 2
    if (linearShrinkage(middle, draw.startMoistureDb, draw.endOfShrinkageDb) > shareRatio) dry = middle
    else wet = middle
  }
  return (dry + wet) / 2
}
