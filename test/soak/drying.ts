/**
 * Random clay, parts, covers and air: drier air is never slower, thicker parts never faster, a closer cover never
 * drier while the air is below equilibrium; water is neither made nor lost; moisture stays above the lowest equilibrium
 * seen; nothing is ever not a number; windows by the fast path lie near those of the full model.
 */
import type { Air } from '#core/air/types.ts'
import { defaultClay } from '#core/drying/clay.ts'
import { coverKinds } from '#core/drying/covers.ts'
import { demandBook } from '#core/drying/demand.ts'
import { jointDraws, priorBeliefs } from '#core/drying/draws.ts'
import { fastCurve } from '#core/drying/fastPath.ts'
import { trajectory, type TrajectoryRequest } from '#core/drying/fullModel.ts'
import { oswinMoistureDb } from '#core/drying/isotherm.ts'
import { cellShare } from '#core/drying/slab.ts'
import { SUCTION_ENDS_DB } from '#core/drying/slabStep.ts'
import type { AirOfSpot, BoardKind, CoverKind, CoverSpan, Draw, PartClass, Trajectory } from '#core/drying/types.ts'
import { curveOf, moistureAt, moistureBandOf } from '#core/drying/windows.ts'
import { specificVolumeM3Kg } from '#core/drying/clay.ts'
import { seededRng, type Rng } from '#core/rng.ts'

const DAY_MIN = 1440
/** Each of two runs is within 0.001 of the limit of short steps: an order may be off by twice that. */
const STEP_ERROR_DB = 2e-3
const boards: readonly BoardKind[] = ['sealed', 'rack', 'absorbent', 'standing']

type Case = {
  readonly draw: Draw
  readonly part: PartClass
  readonly spans: CoverSpan[]
  readonly air: Air
  readonly wave: number
}

export function run(cases: number, seed: number): { failures: number; report: string } {
  const failed: string[] = []
  let ends = 0
  let far = 0
  for (let number = 0; number < cases; number++) {
    const rng = seededRng(seed * 1_000_003 + number)
    const faults = faultsOf(aCase(rng, seed + number, 3), rng)
    const made = aCase(rng, number - seed, 1)
    for (const error of fastErrors(made)) {
      ends++
      if (error > FAST_SHARE) far++
      if (error > FAST_FARTHEST_SHARE && made.part.board !== 'absorbent')
        faults.push(`fast path off by ${error.toFixed(2)} of the age`)
    }
    for (const what of faults) failed.push(`case ${number}: ${what}`)
  }
  if (far > FAR_ENDS_SHARE * ends) failed.push(`fast path: ${far} of ${ends} ends are far off`)
  const fast = `fast path: ${far} of ${ends} ends more than ${FAST_SHARE * 100} % and an hour off`
  return { failures: failed.length, report: [`${cases} random runs`, fast, ...failed.slice(0, 40)].join('\n') }
}

/** @param wide how many times the prior's own spread clay and studio may stray */
function aCase(rng: Rng, seed: number, wide: number): Case {
  const between = (low: number, high: number): number => low + (high - low) * rng.next()
  const pick = <T>(list: readonly T[]): T => list[rng.int(list.length)]!
  const strayed = Object.fromEntries(
    Object.entries(defaultClay).map(([name, belief]) => [name, { ...belief, spread: belief.spread * wide }]),
  ) as typeof defaultClay
  const [draw] = jointDraws(priorBeliefs(strayed), 1, seed)
  const spanCount = 1 + rng.int(4)
  const spans = Array.from({ length: spanCount }, (_, i) => ({
    fromMin: i * Math.round(between(30, 1500)) + i,
    cover: pick(coverKinds),
    spotId: 'rack',
  })).toSorted((a, b) => a.fromMin - b.fromMin)
  const part: PartClass = {
    thicknessMm: wide > 1 ? between(2, 30) : between(3, 14),
    board: pick(boards),
    ...(rng.int(3) === 0 && { rim: { widthMm: between(8, 30), ...(rng.int(2) === 0 && { strip: 'loose' as const }) } }),
    ...(rng.int(4) === 0 && { thickestMm: between(10, 45) }),
    ...(rng.int(4) === 0 && { innerFaceShare: between(0, 1) }),
    ...(rng.int(6) === 0 && { frame: { barWidthMm: between(10, 80), middleIn: rng.int(2) === 0 } }),
  }
  const air = { tempC: between(2, 38), rh: between(0.05, 0.95), airSpeedMS: between(0, 2) }
  return { draw: draw!, part, spans, air, wave: rng.int(2) * between(0, 0.2) }
}

const airOf = ({ air, wave }: Case, but: Partial<Air> = {}): AirOfSpot => {
  const { tempC, rh, airSpeedMS } = { ...air, ...but }
  return () => (minute) => ({
    tempC: tempC + 10 * wave * Math.sin(minute / 229),
    rh: Math.min(0.98, Math.max(0.03, rh + wave * Math.sin(minute / 301))),
    airSpeedMS,
  })
}

const DAYS = 4

function follow(one: Case, but: Partial<TrajectoryRequest> = {}): Trajectory {
  return trajectory({
    part: one.part,
    spans: one.spans,
    airOfSpot: airOf(one),
    draw: one.draw,
    toMin: DAYS * DAY_MIN,
    ...but,
  })
}

function faultsOf(one: Case, rng: Rng): string[] {
  const path = follow(one)
  return [
    ...numberFaults(path),
    ...waterFaults(one, path),
    ...equilibriumFaults(one, path),
    ...(one.wave === 0 ? orderFaults(one, rng) : []),
  ]
}

function numberFaults(path: Trajectory): string[] {
  const { end, ...series } = path
  const cells = [end.middle, end.rim, end.thickest].flatMap((zone) => (zone ? zone.cellsDb : []))
  const all = [...Object.values(series).flat(), ...cells]
  return all.every(Number.isFinite) && cells.every((db) => db >= 0)
    ? []
    : ['something is not a number, or below nothing']
}

function waterFaults({ draw, part }: Case, { end, givenOffKgM2 }: Trajectory): string[] {
  const massKgM2 =
    (part.thicknessMm * draw.thicknessFactor) / 1000 / specificVolumeM3Kg(draw.startMoistureDb, draw.endOfShrinkageDb)
  const left = end.middle.cellsDb.reduce((sum, db, i) => sum + db * cellShare(i), 0)
  const error = massKgM2 * (draw.startMoistureDb - left) - givenOffKgM2.at(-1)!
  return Math.abs(error) < 1e-9 ? [] : [`water out by ${error} kg/m2`]
}

/** Cells cannot go below the driest air's equilibrium, except that a board sucks down to its own end. */
function equilibriumFaults({ draw, part, air, wave }: Case, { driestDb }: Trajectory): string[] {
  const driestRh = Math.max(0.03, air.rh - wave)
  const airDb = oswinMoistureDb(driestRh, draw.oswinA, draw.oswinB)
  const floorDb = part.board === 'absorbent' ? Math.min(airDb, SUCTION_ENDS_DB) : airDb
  const lowest = Math.min(...driestDb)
  return lowest >= floorDb - 1e-4 ? [] : [`drier (${lowest}) than the air's equilibrium (${floorDb})`]
}

type Change = Partial<TrajectoryRequest>

function orderFaults(one: Case, rng: Rng): string[] {
  const faults: string[] = []
  const compare = (what: string, wetter: Change, drier: Change): void => {
    // What usual steps leave in doubt, short ones decide: the claim is of the physics, not of the step's length.
    const leadBy = (step: Change): number =>
      lasting(follow(one, { ...wetter, ...step }), follow(one, { ...drier, ...step }))
    if (leadBy({}) <= STEP_ERROR_DB) return
    const leadDb = leadBy({ stepMin: 5 })
    if (leadDb > STEP_ERROR_DB / 2) faults.push(`${what}: by ${leadDb.toFixed(5)}`)
  }
  compare('slower in drier air', {}, { airOfSpot: airOf(one, { rh: one.air.rh * (0.3 + 0.6 * rng.next()) }) })
  // Thin ware also takes up water faster, where a cupboard is damper than it.
  // A frame's bar has more edge the thicker it is; a fixed board's suction hardly cares: both are left out.
  const rewets = one.spans.some(({ cover }) => cover === 'damp cupboard')
  if (!one.part.frame && one.part.board !== 'absorbent' && !rewets) {
    const thicker = { ...one.part, thicknessMm: one.part.thicknessMm * (1.1 + rng.next()) }
    compare('faster when thicker', { part: thicker }, {})
  }
  const covers = coverKinds.filter((cover) => cover !== 'damp cupboard')
  const [a, b] = [covers[rng.int(covers.length)]!, covers[rng.int(covers.length)]!]
  // Leaks are drawn one by one, so that a loose sheet may be tighter than a tuck: order them as drawn.
  const [close, open] = one.draw.permeance[a] < one.draw.permeance[b] ? [a, b] : [b, a]
  const under = (cover: CoverKind): Change => ({ spans: [{ fromMin: 0, cover, spotId: 'rack' }] })
  const isBelowEquilibrium = oswinMoistureDb(one.air.rh, one.draw.oswinA, one.draw.oswinB) < one.draw.startMoistureDb
  if (a !== b && isBelowEquilibrium) compare(`drier under ${close} than ${open}`, under(close), under(open))
  return faults
}

/** By how much, at the worst hour, what should be the drier run is the wetter. */
function lasting(wetter: Trajectory, drier: Trajectory): number {
  let worst = 0
  for (let minute = 60; minute <= DAYS * DAY_MIN; minute += 60) {
    const lead = moistureAt(drier.minute, drier.meanDb, minute) - moistureAt(wetter.minute, wetter.meanDb, minute)
    worst = Math.max(worst, lead)
  }
  return worst
}

/**
 * Clay as believed and parts as made: ends by the fast path lie within an hour and this share of their age, except for a
 * few (thick ware on plasterboard, tight clay in a hot draught, a cupboard in which moisture hardly falls).
 */
const FAST_SHARE = 0.1
const FAR_ENDS_SHARE = 0.03
/** No end is farther off than this; where a board sucks, moisture may stop at the very threshold, and either be right. */
const FAST_FARTHEST_SHARE = 1

/** How far open and close lie from the full model's, beyond an hour, as share of their age. */
function fastErrors(one: Case): number[] {
  const { draw, part, spans } = one
  const endMin = DAYS * DAY_MIN
  const book = demandBook([draw], airOf(one), 0, endMin)
  const quick = fastCurve({ book, part, spans, cutMin: 0, endMin, draw, d: 0, start: undefined })
  const full = curveOf(follow(one))
  const band = moistureBandOf({ from: 'soft', to: 'firm' }, draw)
  return [band.openAtDb, band.closeAtDb].map((db) => {
    const ageMin = Math.min(full.meanFallsTo(db), endMin)
    const error = Math.abs(Math.min(quick.meanFallsTo(db), endMin) - ageMin)
    return Math.max(0, error - 60) / Math.max(ageMin, 60)
  })
}
