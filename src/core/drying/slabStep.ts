import { CELL_COUNT, meanDbOf, type Slab, type Surroundings } from './slab.ts'
import { fillConductances } from './conductances.ts'
import { solveFace, type FaceFlux } from './faceFlux.ts'
import { heatCapacityOf, latentHeat } from './water.ts'

/** Below this moisture an absorbent board draws nothing more, and lets go over the last points above it. Assumption. */
export const SUCTION_ENDS_DB = 0.15
export const SUCTION_FADES_DB = 0.05
/** Rounds of a step end when the fluxes have settled to this share. */
const SETTLED_SHARE = 4e-3
const SETTLED_KGM2S = 1e-10
const MOST_ROUNDS = 6
/** Halving ends here: a minute's share of any step cannot be too sudden. */
const SHORTEST_STEP_S = 15

/** A neighbouring zone of the same thickness from which water crosses over: rate = diffusivity times `perM2`. */
export type Beside = { readonly slab: Slab; readonly perM2: number }

/**
 * Carries a slab through one step: implicit Euler in moisture; fluxes at the
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
  const length = fillConductances(slab, stepS)
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
