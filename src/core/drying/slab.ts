import { clayTableOf, type ClayTable } from './clayTable.ts'
import type { FaceFlux } from './faceFlux.ts'
import type { Draw, ZoneState } from './types.ts'

/** Cells through the thickness; they are closer at the faces. */
export const CELL_COUNT = 12

/** What a slab meets during one step, per m2 of face as cut. */
export type Surroundings = {
  airTempC: number
  vapourPressurePa: number
  /** Coefficients of the free face and of the face below (0 on a closed board), kg/(m2 s Pa). */
  topKgM2SPa: number
  bottomKgM2SPa: number
  /** Heat from room and board together, W/(m2 K). */
  heatWM2K: number
  /** What an absorbent board takes, kg/(m2 s), and what it can hold. */
  suctionKgM2S: number
  suctionCapacityKgM2: number
}

/** One zone of a part while it dries; changed in place by `advance`. */
export type Slab = {
  readonly clay: ClayTable
  readonly dryMassKgM2: number
  /** Dry mass of each cell, kg/m2. */
  readonly cellMass: Float64Array
  readonly moisture: Float64Array
  tempC: number
  boardKgM2: number
  givenOffKgM2: number
  readonly scratch: Scratch
}

/** Room for one step's working, kept with the slab so that a run of many steps makes no garbage. */
type Scratch = {
  /** Conductance of each cell, kg/(m2 s) per unit of moisture over the whole cell. */
  readonly conductance: Float64Array
  /** Integral of the flow up to each cell's moisture: its difference drives the flux exactly where flows differ much. */
  readonly potential: Float64Array
  /** Between the means of a cell and the next; 0 below the last. */
  readonly link: Float64Array
  /** How fast each cell changed in the last step, per second. */
  readonly rate: Float64Array
  /** By how much a cell's mean lies off the straight line to its faces, for how fast it changes. */
  readonly bend: Float64Array
  /** Moistures that cells are heading for. */
  readonly ahead: Float64Array
  /** From the outermost cells to their faces. */
  readonly faces: { top: number; bottom: number }
  readonly upper: Float64Array
  readonly next: Float64Array
  readonly top: FaceFlux
  readonly bottom: FaceFlux
  readonly board: FaceFlux
}

/** A slab as cut. @param thicknessMm wet, as cut */
export function freshSlab(thicknessMm: number, draw: Draw, tempC: number): Slab {
  const clay = clayTableOf(draw)
  const dryMassKgM2 = thicknessMm / 1000 / clay.specificVolumeAsCut
  const cellMass = new Float64Array(CELL_COUNT)
  for (let i = 0; i < CELL_COUNT; i++) cellMass[i] = dryMassKgM2 * cellShare(i)
  const closedFace = (): FaceFlux => ({ kgM2S: 0, perDb: 0, perKelvin: 0, surfaceDb: draw.startMoistureDb })
  return {
    clay,
    dryMassKgM2,
    cellMass,
    moisture: new Float64Array(CELL_COUNT).fill(draw.startMoistureDb),
    tempC,
    boardKgM2: 0,
    givenOffKgM2: 0,
    scratch: {
      conductance: new Float64Array(CELL_COUNT),
      potential: new Float64Array(CELL_COUNT),
      link: new Float64Array(CELL_COUNT),
      rate: new Float64Array(CELL_COUNT),
      bend: new Float64Array(CELL_COUNT),
      ahead: new Float64Array(CELL_COUNT),
      faces: { top: 0, bottom: 0 },
      upper: new Float64Array(CELL_COUNT),
      next: new Float64Array(CELL_COUNT),
      top: closedFace(),
      bottom: closedFace(),
      board: closedFace(),
    },
  }
}

/** Share of a slab's mass in its i-th cell: thinner at the faces, where moisture changes fastest. */
export const cellShare = (i: number): number => edgeAt(i + 1) - edgeAt(i)

/** Share of the mass above the i-th edge: half evenly, half crowded towards the faces. */
const edgeAt = (i: number): number => i / CELL_COUNT / 2 + (1 - Math.cos((Math.PI * i) / CELL_COUNT)) / 4

/** Puts a slab into a known state. */
export function restoreSlab(slab: Slab, state: ZoneState): void {
  slab.moisture.set(state.cellsDb)
  slab.tempC = state.tempC
  slab.boardKgM2 = state.boardKgM2
  settleFaces(slab)
}

/** Takes the moistures as they are now, when they were changed from outside: no memory of the last step is left. */
export function settleFaces({ moisture, scratch }: Slab): void {
  scratch.rate.fill(0)
  scratch.top.surfaceDb = moisture[0]!
  scratch.bottom.surfaceDb = moisture[CELL_COUNT - 1]!
}

export const zoneStateOf = (slab: Slab): ZoneState => ({
  cellsDb: [...slab.moisture],
  tempC: slab.tempC,
  boardKgM2: slab.boardKgM2,
})

export const surfaceDbOf = (slab: Slab): number => slab.scratch.top.surfaceDb

export function meanDbOf({ moisture, cellMass, dryMassKgM2 }: Slab): number {
  let water = 0
  for (let i = 0; i < CELL_COUNT; i++) water += moisture[i]! * cellMass[i]!
  return water / dryMassKgM2
}
