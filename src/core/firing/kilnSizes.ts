import type { KilnFiring } from './types.ts'

/** What a potter can read off a kiln with a tape and its plate. */
export type KilnMeasures = {
  readonly insideWidthMm: number
  /** As the width for a round one. */
  readonly insideDepthMm: number
  readonly insideHeightMm: number
  readonly isRound: boolean
  /** Insulating brick, and fibre behind it. */
  readonly wallMm: number
  readonly powerKw: number
  readonly maxTempC: number
}

/** Insulating firebrick, 480-550 kg/m³. From memory of a maker's sheet. */
const BRICK_KG_PER_M3 = 515
/** Firebrick at a mean of some 700 °C: 0.14 at 600, 0.17 at 800. From memory of a maker's sheet. */
const BRICK_W_PER_M_K = 0.154
/** Air and radiation at the outside, 10-14. Textbook, from memory. */
const OUTSIDE_W_PER_M2_K = 12
/** Vent on or lid cracked: a third faster, by a maker's statement. */
const VENTED_TO_CLOSED = 0.65
/** Cooling follows the wall's thickness with this power: 65 against 76 mm, and 135 against 76, both give 1.26. */
const TAU_WALL_POWER = 1.26

/** Closed cooling of kilns with a 76 mm wall. @see test/golden/firing/kilns.ts (7.7 h seen at 0.28 m³); the smallest put to 76 mm */
const tauBySize = [
  { volumeM3: 0.017, tauH: 4.1 },
  { volumeM3: 0.074, tauH: 5.5 },
  { volumeM3: 0.2, tauH: 7.2 },
  { volumeM3: 0.28, tauH: 8.4 },
] as const

/**
 * What can be said of a kiln before it has been fired: walls from its measures, cooling from kilns of its size, no losses
 * beyond the walls, no manual switches. Good to about a fifth, until its own readings are in.
 */
export function usualKilnFiring(kiln: KilnMeasures): KilnFiring {
  const inner = shellOf(kiln, 0)
  const outer = shellOf(kiln, kiln.wallMm / 1000)
  const lossWPerM2K = 1 / (kiln.wallMm / 1000 / BRICK_W_PER_M_K + 1 / OUTSIDE_W_PER_M2_K)
  const coolingTauH = tauOf(inner.volumeM3) * (kiln.wallMm / 76) ** TAU_WALL_POWER
  return {
    powerKw: kiln.powerKw,
    maxTempC: kiln.maxTempC,
    ambientC: 22,
    coolingTauH,
    ventedTauH: coolingTauH * VENTED_TO_CLOSED,
    coolsVented: false,
    brickKg: (outer.volumeM3 - inner.volumeM3) * BRICK_KG_PER_M3,
    wallLossWPerK: lossWPerM2K * Math.sqrt(inner.areaM2 * outer.areaM2),
    lossFactor: 1,
    switchUpsMin: [],
    readingOffsetC: 0,
  }
}

function shellOf(kiln: KilnMeasures, wallM: number): { volumeM3: number; areaM2: number } {
  const widthM = kiln.insideWidthMm / 1000 + 2 * wallM
  const depthM = kiln.insideDepthMm / 1000 + 2 * wallM
  const heightM = kiln.insideHeightMm / 1000 + 2 * wallM
  const floorM2 = kiln.isRound ? (Math.PI / 4) * widthM * depthM : widthM * depthM
  const girthM = kiln.isRound ? (Math.PI * (widthM + depthM)) / 2 : 2 * (widthM + depthM)
  return { volumeM3: floorM2 * heightM, areaM2: 2 * floorM2 + girthM * heightM }
}

/** Straight in the logarithm of the volume; beyond the table its ends go on as they came. */
function tauOf(volumeM3: number): number {
  const found = tauBySize.findIndex((row) => row.volumeM3 >= volumeM3)
  const upper = found < 0 ? tauBySize.length - 1 : Math.max(1, found)
  const low = tauBySize[upper - 1]!
  const high = tauBySize[upper]!
  const share = Math.log(volumeM3 / low.volumeM3) / Math.log(high.volumeM3 / low.volumeM3)
  return Math.max(1, low.tauH + share * (high.tauH - low.tauH))
}
