import { quickSaturationPa } from '#core/air/saturationTable.ts'
import { lookUp, rowOf, ROWS_PER_DB } from './clayTable.ts'
import { CELL_COUNT, type Slab } from './slab.ts'
import { waterMobility } from './water.ts'

/** The most that curvature may take from or add to a flux: fluxes keep their sign. */
const MOST_CURVED = 0.5

/**
 * Sets each cell's conductance at the slab's temperature and the moistures it is heading for at the end of a step, as
 * the last one went: this halves what the step's length costs in accuracy.
 * @returns length relative to that as cut
 */
export function fillConductances(slab: Slab, stepS: number): number {
  const { cellMass, clay } = slab
  const moisture = headingFor(slab, stepS)
  const { conductance, potential, link, rate, bend, faces, top, bottom } = slab.scratch
  const last = CELL_COUNT - 1
  let length = 0
  for (let i = 0; i <= last; i++) length += cellMass[i]! * lookUp(clay.length, moisture[i]!)
  length /= slab.dryMassKgM2
  const fourth = length ** 4
  const mobility = fourth * waterMobility(slab.tempC)
  const vapour = fourth * quickSaturationPa(slab.tempC)
  for (let i = 0; i <= last; i++) {
    const row = rowOf(moisture[i]!)
    const share = moisture[i]! * ROWS_PER_DB - row
    const liquid = clay.carried[row]!
    const gas = clay.carriedAsVapour[row]!
    const liquidStep = clay.carried[row + 1]! - liquid
    const gasStep = clay.carriedAsVapour[row + 1]! - gas
    const flow = mobility * liquidStep + vapour * gasStep
    potential[i] = mobility * liquid + vapour * gas + share * flow
    conductance[i] = (flow * ROWS_PER_DB) / cellMass[i]!
    bend[i] = (rate[i]! * cellMass[i]!) / (6 * conductance[i]!)
  }
  for (let i = 0; i < last; i++) {
    const differenceDb = moisture[i]! - moisture[i + 1]!
    const apart = (cellMass[i]! + cellMass[i + 1]!) / 2
    const between =
      Math.abs(differenceDb) < 1e-7
        ? (conductance[i]! * cellMass[i]!) / apart
        : (potential[i]! - potential[i + 1]!) / differenceDb / apart
    link[i] = between * (1 - curved(bend[i]! - bend[i + 1]!, differenceDb))
  }
  faces.top = faceConductance(slab, 0, top.surfaceDb, mobility, vapour)
  faces.bottom = faceConductance(slab, last, bottom.surfaceDb, mobility, vapour)
  return length
}

/** Never less than half of what a cell holds now, however fast it went. */
function headingFor({ moisture, scratch }: Slab, stepS: number): Float64Array {
  const { ahead, rate } = scratch
  for (let i = 0; i < CELL_COUNT; i++) ahead[i] = Math.max(moisture[i]! / 2, moisture[i]! + rate[i]! * stepS)
  return ahead
}

/** Between an outermost cell's mean and its face, by the mean diffusivity over the moistures between them. */
function faceConductance(
  { cellMass, clay, scratch }: Slab,
  i: number,
  surfaceDb: number,
  mobility: number,
  vapour: number,
): number {
  const differenceDb = scratch.ahead[i]! - surfaceDb
  if (Math.abs(differenceDb) < 1e-7) return scratch.conductance[i]!
  const atFace = mobility * lookUp(clay.carried, surfaceDb) + vapour * lookUp(clay.carriedAsVapour, surfaceDb)
  const between = (scratch.potential[i]! - atFace) / differenceDb / cellMass[i]!
  return between * (1 - curved(scratch.bend[i]!, differenceDb))
}

/**
 * Share by which a difference of means overstates what drives the flux, for the profile's curvature inside the cells:
 * this makes the mean moisture exact to the fourth order in the cells' width. Bounded, so that fluxes keep their sign.
 * @see compact (Numerov-like) finite volumes; the curvature is that of the last step
 */
function curved(bendDb: number, differenceDb: number): number {
  if (Math.abs(differenceDb) < 1e-9) return 0
  const share = bendDb / differenceDb
  return share > MOST_CURVED ? MOST_CURVED : share < -MOST_CURVED ? -MOST_CURVED : share
}
