/** What the fast path proposed, settled: a run's clay followed by the full model through all that hands will decide. */
import { firmnessThresholdDb } from '#core/drying/clay.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { boneDryDb } from '#core/drying/isotherm.ts'
import type { CoverKind, CoverSpan, Draw, Firmness, PartState, Trajectory } from '#core/drying/types.ts'
import { fallsTo, moistureBandOf } from '#core/drying/windows.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { classesOf, type ClayState, kept, spansKey, type Ware, type Wares, type Work } from './wares.ts'

/** Ware not dry after this long under a plan's covers counts as never dry. */
const LONGEST_DRYING_MIN = 40 * MIN_PER_DAY
/** Longest step when only the day of dryness is asked for, and what is added for it. */
const DRYING_STEP_MIN = 120

/**
 * The full model's own accuracy: a look-in that finds clay this near to what decides may be decided either way, by a hand or
 * by whoever reckons in other steps. A draw counts as held only if it is held both ways.
 */
const CLOSE_DB = 0.001

/** One wait and the work at its end, as hands will meet it: covers set, and what is ready parked, visit by visit. */
export type Leg = {
  readonly fromMin: Minute
  readonly spotId: string
  /** Null: it lies on as it did. */
  readonly cover: CoverKind | null
  /** The cover that lay over it before. */
  readonly over: CoverKind
  readonly parkWhen: { readonly firmness: Firmness; readonly cover: CoverKind } | null
  readonly parksAtOnce: boolean
  readonly visits: readonly {
    readonly startMin: Minute
    readonly endMin: Minute
    readonly parks: boolean
    readonly cover: CoverKind | null
  }[]
  readonly work: Work
}

/** The whole way by the full model: in which draws all its works are inside their bands, and where the clay is at its end. */
export function settled(wares: Wares, ware: Ware, start: ClayState, legs: readonly Leg[]): Settled {
  if (legs.length === 0) return { state: start, held: ware.draws.map(() => true) }
  return kept(wares, `s ${start.key} ${JSON.stringify(legs)}`, () => walkedOut(ware, start, legs))
}

type Settled = { readonly state: ClayState; readonly held: readonly boolean[] }

function walkedOut(ware: Ware, start: ClayState, legs: readonly Leg[]): Settled {
  const states: PartState[][] = []
  const held = ware.draws.map((draw, d) => {
    const walk = (biasDb: number) => {
      const states = ware.classes.map((_, c) => start.states?.[d]?.[c])
      const clay: Clay = { ware, draw, minute: start.minute, states, over: [], biasDb, wasClose: false }
      const inside = legs.map((leg) => walked(clay, leg)).every(Boolean)
      return { clay, inside }
    }
    const { clay, inside } = walk(0)
    states.push(clay.states.map((state) => state!))
    return inside && (!clay.wasClose || (walk(CLOSE_DB).inside && walk(-CLOSE_DB).inside))
  })
  const minute = legs.at(-1)!.work.toMin
  const key = `${start.key}>${legs.map(({ fromMin, cover, work }) => `${fromMin}${cover ?? ''}${work.fromMin}`).join(';')}`
  return { state: { key, minute, states }, held }
}

/** A run's clay in one draw on its way: changed as it is followed. */
type Clay = {
  readonly ware: Ware
  readonly draw: Draw
  minute: Minute
  states: (PartState | undefined)[]
  over: CoverSpan[]
  /** Added to the moisture at which clay counts as firm enough to be parked. */
  readonly biasDb: number
  /** Whether some look-in found it so near to that moisture that it may be decided otherwise. */
  wasClose: boolean
}

/** Follows one leg; whether its work falls inside the band. */
function walked(clay: Clay, leg: Leg): boolean {
  const { spotId, parkWhen, work } = leg
  const classes = classesOf(clay.ware, work.partIndexes)
  const isFirm = () => {
    if (parkWhen === null) return false
    const overDb = Math.max(...meansOf(clay, classes)) - firmnessThresholdDb(parkWhen.firmness, clay.draw)
    if (Math.abs(overDb) <= CLOSE_DB) clay.wasClose = true
    return overDb <= clay.biasDb
  }
  let parked = leg.parksAtOnce && isFirm()
  lay(clay, { fromMin: leg.fromMin, cover: parked ? parkWhen!.cover : (leg.cover ?? leg.over), spotId })
  for (const visit of leg.visits) {
    if (parked) break
    if (visit.parks) {
      follow(clay, visit.startMin)
      parked = isFirm()
    }
    const cover = parked ? parkWhen!.cover : visit.cover
    if (cover !== null) {
      follow(clay, visit.endMin)
      lay(clay, { fromMin: visit.endMin, cover, spotId })
    }
  }
  const { openAtDb, closeAtDb, rimCloseAtDb, maxDifferenceDb } = moistureBandOf(work.band, clay.draw)
  const apart = (means: readonly number[]) => Math.max(...means) - Math.min(...means) > maxDifferenceDb
  follow(clay, work.fromMin)
  const begun = meansOf(clay, classes)
  const ways = follow(clay, work.toMin)
  const ended = classes.map((c) => ways[c]!)
  return (
    begun.every((db) => db <= openAtDb) &&
    ended.every(({ meanDb, rimDb }) => meanDb.at(-1)! > closeAtDb && rimDb.at(-1)! > rimCloseAtDb) &&
    !apart(begun) &&
    !apart(ended.map(({ meanDb }) => meanDb.at(-1)!))
  )
}

const lay = (clay: Clay, span: CoverSpan): void => void (clay.over = [span])

function follow(clay: Clay, toMin: Minute): Trajectory[] {
  const { ware, draw } = clay
  const ways = ware.classes.map((part, c) => {
    const start = clay.states[c]
    const spans = clay.over.map((span) => ({ ...span, fromMin: Math.max(span.fromMin, clay.minute) }))
    return trajectory({ part, spans, airOfSpot: ware.airOfSpot, draw, toMin, ...(start ? { start } : {}) })
  })
  clay.states = ways.map(({ end }) => end)
  clay.minute = toMin
  return ways
}

/** Mean moistures now; as cut where nothing has been followed yet. */
const meansOf = ({ states, draw }: Clay, classes: readonly number[]): number[] =>
  classes.map((c) => {
    const state = states[c]
    return state ? meanDbOfState(state) : draw.startMoistureDb
  })

/**
 * By draw, when the built piece is dry at its thickest spot under these spans; Infinity: not within a reasonable time.
 * @param built where it is, if it was built before; otherwise it begins as its wettest part is
 */
export function dryMinutes(
  wares: Wares,
  ware: Ware,
  from: ClayState,
  spans: readonly CoverSpan[],
  built: readonly PartState[] | null,
): readonly number[] {
  return kept(wares, `d ${from.key} ${spansKey(spans)}`, () =>
    ware.draws.map((draw, d) => {
      const dryDb = boneDryDb(draw.oswinA, draw.oswinB)
      const start = built?.[d] ?? wettestOf(from, d)
      const path = trajectory({
        part: ware.built,
        spans,
        airOfSpot: ware.airOfSpot,
        draw,
        toMin: from.minute + LONGEST_DRYING_MIN,
        untilDb: dryDb,
        stepMin: DRYING_STEP_MIN,
        ...(start ? { start } : {}),
      })
      return Math.ceil(fallsTo(path.minute, path.wettestDb, dryDb)) + DRYING_STEP_MIN
    }),
  )
}

/** The built piece starts as its wettest part is. */
function wettestOf(from: ClayState, d: number): PartState | undefined {
  if (!from.states) return undefined
  const wettest = from.states[d]!.reduce((most, next) => (meanDbOfState(next) > meanDbOfState(most) ? next : most))
  return { minute: from.minute, middle: wettest.middle }
}

/** Mean of the middle; cells are closer at the faces. @see slab.ts, where they are laid out */
function meanDbOfState({ middle: { cellsDb } }: PartState): number {
  const edge = (i: number): number => Math.cos((Math.PI * i) / cellsDb.length) / 2
  return cellsDb.reduce((sum, db, i) => sum + db * (edge(i) - edge(i + 1)), 0)
}
