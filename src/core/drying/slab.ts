import { quickSaturationPa } from '#core/air/saturationTable.ts'
import { clayTableOf, lookUp, rowOf, ROWS_PER_DB, type ClayTable } from './clayTable.ts'
import { solveFace, type FaceFlux } from './faceFlux.ts'
import type { Draw, ZoneState } from './types.ts'

/** Cells through the thickness; they are closer at the faces. */
export const CELL_COUNT = 12
/** Heat kept by clay and by the board's skin. From memory: clay 840 J/(kg K), water 4186, board 2 kJ/(m2 K). */
const CLAY_HEAT = 840
const WATER_HEAT = 4186
const BOARD_HEAT = 2000
/** Below this moisture an absorbent board draws nothing more, and lets go over the last points above it. Assumption. */
export const SUCTION_ENDS_DB = 0.15
export const SUCTION_FADES_DB = 0.05
/** Rounds of a step end when the fluxes have settled to this share. */
const SETTLED_SHARE = 4e-3
const SETTLED_KGM2S = 1e-10
const MOST_ROUNDS = 6
/** Halving ends here: a minute's share of any step cannot be too sudden. */
const SHORTEST_STEP_S = 15
const MOST_CURVED = 0.5

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

/** A neighbouring zone of the same thickness from which water crosses over: rate = diffusivity times `perM2`. */
export type Beside = { readonly slab: Slab; readonly perM2: number }

/**
 * Carries a slab through one step: implicit Euler in moisture with the diffusivities of the step's start; fluxes at the
 * faces and temperature are solved together. Steps over which a face dries too suddenly for that are halved. Stable at
 * any step; moisture stays between its own extremes and the equilibrium with the air.
 * @param stepS seconds, above 0
 * @param beside for a rim: the middle it belongs to, already carried through the same step
 */
export function advance(slab: Slab, around: Surroundings, stepS: number, beside?: Beside): void {
  const tempC = solveStep(slab, around, stepS, beside)
  if (tempC === undefined && stepS > SHORTEST_STEP_S) {
    advance(slab, around, stepS / 2, beside)
    advance(slab, around, stepS / 2, beside)
    return
  }
  const { moisture, cellMass, scratch } = slab
  const { next, rate, board } = scratch
  slab.tempC = tempC ?? slab.tempC
  slab.boardKgM2 += board.kgM2S * stepS
  for (let i = 0; i < CELL_COUNT; i++) {
    const lost = moisture[i]! - next[i]!
    slab.givenOffKgM2 += cellMass[i]! * lost
    rate[i] = -lost / stepS
    moisture[i] = next[i]!
  }
}

/**
 * Solves one step into `scratch.next`. Fluxes are linear in the outermost cells within a round; rounds end when these
 * cells no longer move the fluxes.
 * @returns the temperature at its end; undefined if the rounds have not settled
 */
function solveStep(slab: Slab, around: Surroundings, stepS: number, beside?: Beside): number | undefined {
  const { next, top, bottom, board } = slab.scratch
  const last = CELL_COUNT - 1
  const length = fillConductances(slab)
  const area = length * length
  const heatPerS = heatCapacityOf(slab.dryMassKgM2, meanDbOf(slab)) / stepS
  next.set(slab.moisture)
  let tempC = slab.tempC
  let expected = Infinity
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const topDb = Math.max(0, next[0]!)
    const bottomDb = Math.max(0, next[last]!)
    tempC = balanceHeat(slab, around, area, heatPerS, tempC, topDb, bottomDb)
    drawIntoBoard(board, around, slab.boardKgM2, stepS, bottomDb)
    const total = top.kgM2S + bottom.kgM2S + board.kgM2S
    if (Math.abs(total - expected) <= SETTLED_SHARE * Math.abs(total) + SETTLED_KGM2S) return tempC
    solveCells(slab, stepS, topDb, bottomDb, beside)
    const bottomPerDb = bottom.perDb + board.perDb
    expected = total + top.perDb * (next[0]! - topDb) + bottomPerDb * (next[last]! - bottomDb)
  }
  return undefined
}

/** Heat kept by clay, its water and the board's skin, J/(m2 K). */
export const heatCapacityOf = (dryMassKgM2: number, moistureDb: number): number =>
  dryMassKgM2 * (CLAY_HEAT + WATER_HEAT * moistureDb) + BOARD_HEAT

/** Latent heat of water, J/kg. @see ASHRAE Fundamentals (2017) ch. 1, enthalpy of vapour less that of water */
export const latentHeat = (tempC: number): number => 2.501e6 - 2361 * tempC

/**
 * Temperature at the step's end by one Newton step from a guess, and the fluxes of both faces carried to it: rounds of
 * `advance` do the rest.
 */
function balanceHeat(
  slab: Slab,
  around: Surroundings,
  area: number,
  heatPerS: number,
  guessC: number,
  topDb: number,
  bottomDb: number,
): number {
  const { top, bottom, faces } = slab.scratch
  const { activity } = slab.clay
  const pa = around.vapourPressurePa
  solveFace(top, topDb, faces.top, around.topKgM2SPa * area, guessC, pa, activity)
  solveFace(bottom, bottomDb, faces.bottom, around.bottomKgM2SPa * area, guessC, pa, activity)
  const latent = latentHeat(guessC)
  const given = latent * (top.kgM2S + bottom.kgM2S)
  const gain = heatPerS * (slab.tempC - guessC) + around.heatWM2K * (around.airTempC - guessC) - given
  const change = gain / (heatPerS + around.heatWM2K + latent * (top.perKelvin + bottom.perKelvin))
  top.kgM2S += top.perKelvin * change
  bottom.kgM2S += bottom.perKelvin * change
  return guessC + change
}

/** What the board takes during a step: the less, the fuller it is and the drier the clay's face upon it. */
function drawIntoBoard(
  board: FaceFlux,
  around: Surroundings,
  takenKgM2: number,
  stepS: number,
  bottomDb: number,
): void {
  if (around.suctionKgM2S === 0) {
    board.kgM2S = board.perDb = 0
    return
  }
  const leftKgM2 = Math.max(0, around.suctionCapacityKgM2 - takenKgM2)
  const keen = Math.min((around.suctionKgM2S * leftKgM2) / around.suctionCapacityKgM2, leftKgM2 / stepS)
  const grip = Math.min(1, Math.max(0, (bottomDb - SUCTION_ENDS_DB) / SUCTION_FADES_DB))
  board.kgM2S = keen * grip
  board.perDb = grip > 0 && grip < 1 ? keen / SUCTION_FADES_DB : 0
}

/** Sets each cell's conductance at its moisture and the slab's temperature. @returns length relative to that as cut */
function fillConductances(slab: Slab): number {
  const { moisture, cellMass, clay } = slab
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

/** Between an outermost cell's mean and its face, by the mean diffusivity over the moistures between them. */
function faceConductance(
  { moisture, cellMass, clay, scratch }: Slab,
  i: number,
  surfaceDb: number,
  mobility: number,
  vapour: number,
): number {
  const differenceDb = moisture[i]! - surfaceDb
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

/**
 * How much easier liquid water moves than at 20 °C: T over viscosity, -30 to 70 °C, by table every half kelvin.
 * @see Vogel's equation for water, Reid et al. (1987)
 */
export function waterMobility(tempC: number): number {
  const place = (Math.min(MOBILITY_WARMEST_C, Math.max(MOBILITY_COLDEST_C, tempC)) - MOBILITY_COLDEST_C) * 2
  const row = place | 0
  const below = mobilities[row]!
  return below + (place - row) * (mobilities[row + 1]! - below)
}

const MOBILITY_COLDEST_C = -30
const MOBILITY_WARMEST_C = 70
const mobilities = Float64Array.from({ length: 2 * (MOBILITY_WARMEST_C - MOBILITY_COLDEST_C) + 2 }, (_, row) => {
  const tempC = MOBILITY_COLDEST_C + row / 2
  return ((tempC + 273.15) / 293.15) * 10 ** (247.8 / 153.15 - 247.8 / (tempC + 133.15))
})

/** One solution of the tridiagonal balance of all cells, fluxes linear about the given outermost moistures. */
function solveCells(slab: Slab, stepS: number, topDb: number, bottomDb: number, beside?: Beside): void {
  const { moisture, cellMass, scratch } = slab
  const { link, upper, next, top, bottom, board } = scratch
  const last = CELL_COUNT - 1
  const perS = 1 / stepS
  const bottomPerDb = bottom.perDb + board.perDb
  let above = 0
  let upperAbove = 0
  let solved = 0
  for (let i = 0; i <= last; i++) {
    const keep = cellMass[i]! * perS
    const below = link[i]!
    let diagonal = keep + above + below
    let right = keep * moisture[i]!
    if (i === 0) {
      diagonal += top.perDb
      right += top.perDb * topDb - top.kgM2S
    }
    if (i === last) {
      diagonal += bottomPerDb
      right += bottomPerDb * bottomDb - bottom.kgM2S - board.kgM2S
    }
    if (beside) {
      const exchange = exchangeOf(slab, beside, i)
      diagonal += exchange
      right += exchange * beside.slab.moisture[i]!
    }
    const pivot = 1 / (diagonal - above * upperAbove)
    solved = (right + above * solved) * pivot
    upperAbove = below * pivot
    upper[i] = upperAbove
    next[i] = solved
    above = below
  }
  for (let i = last - 1; i >= 0; i--) {
    solved = next[i]! + upper[i]! * solved
    next[i] = solved
  }
}

/** What crosses over from the neighbouring zone's cell, kg/(m2 s) per unit of moisture. */
function exchangeOf({ scratch, cellMass, clay }: Slab, beside: Beside, i: number): number {
  const here = scratch.conductance[i]!
  const there = beside.slab.scratch.conductance[i]!
  return ((2 * here * there) / (here + there)) * beside.perM2 * (clay.specificVolumeAsCut * cellMass[i]!) ** 2
}
