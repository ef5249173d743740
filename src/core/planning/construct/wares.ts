/**
 * Clay while a plan looks ahead: every part of a run's pieces in every common draw, followed from where it is under the
 * covers that are tried. Answers are kept, since constructions ask the same again and again.
 */
import type { DemandBook } from '#core/drying/demand.ts'
import { fastCurve } from '#core/drying/fastPath.ts'
import { firmnessThresholdDb } from '#core/drying/clay.ts'
import { boneDryDb } from '#core/drying/isotherm.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { runStates } from '#core/drying/runStates.ts'
import type { AirOfSpot, CoverKind, CoverSpan, Draw, Firmness, PartClass, PartState, StepBand, Trajectory } from '#core/drying/types.ts'
import { fallsTo, moistureBandOf, type PartCurve, windowOf } from '#core/drying/windows.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { feltSoFar, spansSoFar } from '../facts/soFar.ts'
import type { Job } from '../jobs.ts'
import type { Desk } from './desk.ts'
import { LOOK_AHEAD_MIN } from './wait.ts'

/** A run's clay: its parts and its futures. `key` names all that its drying depends on. */
export type Ware = {
  readonly key: string
  /** Parts that dry alike stand once; `classOfPart[p]` says which of `classes` part p of the design is. */
  readonly classes: readonly PartClass[]
  readonly classOfPart: readonly number[]
  readonly partNames: readonly string[]
  readonly built: PartClass
  readonly draws: readonly Draw[]
  readonly airOfSpot: AirOfSpot
  /** Running sums of what the air takes, shared by all ware of the clay, and how far they reach. */
  readonly book: { readonly sums: DemandBook; readonly endMin: Minute }
}

/** Where a run's clay is: by draw, by class. `key` names how it came there. `states` null: as cut. */
export type ClayState = {
  readonly key: string
  readonly minute: Minute
  readonly states: readonly (readonly PartState[])[] | null
}

/** The way of a run's clay from a state on, draw by draw, up to `minute`. */
export type ClayPath = {
  readonly key: string
  readonly start: ClayState
  readonly minute: Minute
  readonly spansByDraw: readonly (readonly CoverSpan[])[]
}

/** A piece of work that needs every part named to be inside a band, from its beginning to its end. */
export type Work = { readonly fromMin: Minute; readonly toMin: Minute; readonly band: StepBand; readonly partIndexes: readonly number[] }

/** By draw, when a step could first and last be done if the cover stays as it is; Infinity where it does not come to it. */
export type DrawSpans = { readonly openMin: readonly number[]; readonly closeMin: readonly number[]; readonly closingPart: string }

export type Wares = { readonly memo: Map<string, unknown> }

export const emptyWares = (): Wares => ({ memo: new Map() })

/** Ware not dry after this long under a plan's covers counts as never dry. */
const LONGEST_DRYING_MIN = 40 * MIN_PER_DAY

/** Longest step when only the day of dryness is asked for, and what is added for it. */
const DRYING_STEP_MIN = 120
/** The fast path may be this far from the full model where steps are placed; it is kept clear of both ends. */
const FAST_MARGIN_MIN = 25

/** As cut, at the end of its cutting. */
export const asCut = (ware: Ware, minute: Minute): ClayState => ({ key: `${ware.key}@${minute}`, minute, states: null })

/** A way that begins at a state; the first cover is still to be set. */
export const pathFrom = (ware: Ware, start: ClayState): ClayPath => ({
  key: start.key,
  start,
  minute: start.minute,
  spansByDraw: ware.draws.map(() => []),
})

/** The way followed on, each draw under its own spans, up to `minute`. */
export function pathOn(path: ClayPath, spansByDraw: readonly (readonly CoverSpan[])[], minute: Minute): ClayPath {
  const history = spansByDraw.map(spansKey).join(';')
  return {
    key: `${path.key}>${history}>${minute}`,
    start: path.start,
    minute,
    spansByDraw: path.spansByDraw.map((spans, d) => [...spans, ...spansByDraw[d]!]),
  }
}

/** Where the clay of a run under way is now: through its covers so far, brought to what was felt and weighed. */
export function stateNow(desk: Desk, job: Job, ware: Ware): ClayState {
  const { nowMin } = desk.given
  const history = historyOf(job, nowMin)
  if (!history) return asCut(ware, nowMin)
  return kept(desk.given.wares, `now ${job.id}`, () => {
    const byClass = ware.classes.map((part) => runStates({ part, ...history, airOfSpot: ware.airOfSpot, draws: ware.draws, nowMin }))
    return { key: `now ${job.id}`, minute: nowMin, states: ware.draws.map((_, d) => byClass.map((states) => states[d]!)) }
  })
}

/** The same for a piece whose last clay step is done: its thickest spot has a history of its own. By draw. */
export function builtNow(desk: Desk, job: Job, ware: Ware): readonly PartState[] | null {
  const { nowMin } = desk.given
  const history = historyOf(job, nowMin)
  if (!history) return null
  return kept(desk.given.wares, `built ${job.id}`, () =>
    runStates({ part: ware.built, ...history, airOfSpot: ware.airOfSpot, draws: ware.draws, nowMin }),
  )
}

function historyOf({ design, state: run }: Job, nowMin: Minute) {
  const spans = run ? spansSoFar(run, nowMin) : []
  return run && spans.length > 0 ? { spans, observations: feltSoFar(run, design) } : null
}

/**
 * When the step's band is passed under these covers, by draw, over the classes that the step needs: by the fast path,
 * to be settled by the full model (`settled`).
 */
export function spansUnder(wares: Wares, ware: Ware, path: ClayPath, spans: readonly CoverSpan[], band: StepBand, partIndexes: readonly number[]): DrawSpans {
  const classes = classesOf(ware, partIndexes)
  const reckoned = (): DrawSpans => {
    const endMin = Math.min(path.minute + LOOK_AHEAD_MIN, ware.book.endMin)
    const closers = new Map<number, number>()
    const windows = ware.draws.map((draw, d) => {
      const curves = classes.map((c) => curveOf(ware, path, [...path.spansByDraw[d]!, ...spans], c, d, endMin))
      const window = windowOf(curves, moistureBandOf(band, draw))
      const closer = classes[window.closes.part] ?? 0
      closers.set(closer, (closers.get(closer) ?? 0) + 1)
      // A curve that ends before the band is left says nothing of when it is left.
      const closeMin = window.closes.by === 'horizon' ? Number.POSITIVE_INFINITY : Math.floor(window.closeMin) - FAST_MARGIN_MIN
      const openMin = Math.ceil(window.openMin)
      return { openMin: openMin <= path.minute ? path.minute : openMin + FAST_MARGIN_MIN, closeMin }
    })
    const closing = [...closers].reduce((most, next) => (next[1] > most[1] ? next : most))[0]
    return {
      openMin: windows.map(({ openMin }) => openMin),
      closeMin: windows.map(({ closeMin }) => closeMin),
      closingPart: ware.partNames[ware.classOfPart.indexOf(closing)] ?? '',
    }
  }
  // Only the first wait of a run is asked for again and again; later ones hang on all that was chosen before.
  const isFirst = path.minute === path.start.minute
  return isFirst ? kept(wares, `w ${path.key} ${spansKey(spans)} ${JSON.stringify(band)} ${classes.join()}`, reckoned) : reckoned()
}

/** In which draws the work at the end of the way falls inside its band, by the fast path. */
export function heldBy(ware: Ware, path: ClayPath, work: Work): boolean[] {
  const classes = classesOf(ware, work.partIndexes)
  return ware.draws.map((draw, d) => {
    const limits = moistureBandOf(work.band, draw)
    const { openMin, closeMin } = windowOf(
      classes.map((c) => curveOf(ware, path, path.spansByDraw[d]!, c, d, work.toMin + 2 * FAST_MARGIN_MIN)),
      limits,
    )
    return openMin <= work.fromMin && closeMin >= work.toMin + FAST_MARGIN_MIN
  })
}

function curveOf(ware: Ware, { start }: ClayPath, spans: readonly CoverSpan[], c: number, d: number, endMin: Minute): PartCurve {
  const state = start.states?.[d]?.[c]
  return fastCurve({ book: ware.book.sums, part: ware.classes[c]!, spans, cutMin: start.minute, endMin, draw: ware.draws[d]!, d, start: state })
}

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
  readonly visits: readonly { readonly startMin: Minute; readonly endMin: Minute; readonly parks: boolean; readonly cover: CoverKind | null }[]
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
    const clay: Clay = { ware, draw, minute: start.minute, states: ware.classes.map((_, c) => start.states?.[d]?.[c]), over: [] }
    const inside = legs.map((leg) => walked(clay, leg))
    states.push(clay.states.map((state) => state!))
    return inside.every(Boolean)
  })
  const minute = legs.at(-1)!.work.toMin
  const key = `${start.key}>${legs.map(({ fromMin, cover, work }) => `${fromMin}${cover ?? ''}${work.fromMin}`).join(';')}`
  return { state: { key, minute, states }, held }
}

/** A run's clay in one draw on its way: changed as it is followed. */
type Clay = { readonly ware: Ware; readonly draw: Draw; minute: Minute; states: (PartState | undefined)[]; over: CoverSpan[] }

/** Follows one leg; whether its work falls inside the band. */
function walked(clay: Clay, leg: Leg): boolean {
  const { spotId, parkWhen, work } = leg
  const classes = classesOf(clay.ware, work.partIndexes)
  const isFirm = () => parkWhen !== null && meansOf(clay, classes).every((db) => db <= firmnessThresholdDb(parkWhen.firmness, clay.draw))
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
export function dryMinutes(wares: Wares, ware: Ware, from: ClayState, spans: readonly CoverSpan[], built: readonly PartState[] | null): readonly number[] {
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

const classesOf = (ware: Ware, partIndexes: readonly number[]): readonly number[] =>
  [...new Set(partIndexes.map((p) => ware.classOfPart[p]!))].toSorted((a, b) => a - b)

const spansKey = (spans: readonly CoverSpan[]): string => spans.map(({ fromMin, cover, spotId }) => `${fromMin}${cover}@${spotId}`).join()

function kept<Value>(wares: Wares, key: string, make: () => Value): Value {
  const known = wares.memo.get(key)
  if (known !== undefined) return known as Value
  const made = make()
  wares.memo.set(key, made)
  return made
}
