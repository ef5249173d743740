/**
 * Clay while a plan looks ahead: every part of a run's pieces in every common draw, followed from where it is under the
 * covers that are tried. Answers are kept, since constructions ask the same again and again.
 */
import type { DemandBook } from '#core/drying/demand.ts'
import { fastCurve } from '#core/drying/fastPath.ts'
import { boneDryDb } from '#core/drying/isotherm.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { type Observation, runStates } from '#core/drying/runStates.ts'
import type { AirOfSpot, CoverSpan, Draw, PartClass, PartState, StepBand, Trajectory } from '#core/drying/types.ts'
import { fallsTo, moistureAt, moistureBandOf, windowOf } from '#core/drying/windows.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
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

/** By draw, when a step could first and last be done if the cover stays as it is; Infinity where it does not come to it. */
export type DrawSpans = { readonly openMin: readonly number[]; readonly closeMin: readonly number[]; readonly closingPart: string }

export type Wares = { readonly memo: Map<string, unknown> }

export const emptyWares = (): Wares => ({ memo: new Map() })

/** Ware not dry after this long under a plan's covers counts as never dry. */
const LONGEST_DRYING_MIN = 40 * MIN_PER_DAY

/** As cut, at the end of its cutting. */
export const asCut = (ware: Ware, minute: Minute): ClayState => ({ key: `${ware.key}@${minute}`, minute, states: null })

/** Where the clay of a run under way is now: through its covers so far, brought to what was felt and weighed. */
export function stateNow(desk: Desk, { id, design, state: run }: Job, ware: Ware): ClayState {
  const { nowMin } = desk.given
  const cutMin = run?.cutMin ?? nowMin
  const spans = (run?.waits ?? []).map(({ fromMin, cover, spotId }): CoverSpan => ({ fromMin: Math.max(fromMin, cutMin), cover, spotId }))
  if (spans.length === 0) return asCut(ware, nowMin)
  return kept(desk.given.wares, `now ${id}`, () => {
    const observations = (run?.felt ?? []).flatMap(({ minute, stepId, verdict }): Observation[] => {
      const band = design.steps.find((step) => step.id === stepId)?.band
      return band ? [{ kind: 'felt', minute, verdict, band }] : []
    })
    const byClass = ware.classes.map((part) =>
      runStates({ part, spans, observations, airOfSpot: ware.airOfSpot, draws: ware.draws, nowMin }),
    )
    return { key: `now ${id}`, minute: nowMin, states: ware.draws.map((_, d) => byClass.map((states) => states[d]!)) }
  })
}

/**
 * When the step's band is passed under these covers, by draw, over the classes that the step needs: by the fast path,
 * to be settled by the full model (`followed`).
 */
export function spansUnder(wares: Wares, ware: Ware, from: ClayState, spans: readonly CoverSpan[], band: StepBand, partIndexes: readonly number[]): DrawSpans {
  const classes = classesOf(ware, partIndexes)
  return kept(wares, `w ${from.key} ${spansKey(spans)} ${JSON.stringify(band)} ${classes.join()}`, () => {
    const endMin = Math.min(from.minute + LOOK_AHEAD_MIN, ware.book.endMin)
    const closers = new Map<number, number>()
    const windows = ware.draws.map((draw, d) => {
      const curves = classes.map((c) =>
        fastCurve({ book: ware.book.sums, part: ware.classes[c]!, spans, cutMin: from.minute, endMin, draw, d, start: from.states?.[d]?.[c] }),
      )
      const window = windowOf(curves, moistureBandOf(band, draw))
      const closer = classes[window.closes.part] ?? 0
      closers.set(closer, (closers.get(closer) ?? 0) + 1)
      // A curve that ends before the band is left says nothing of when it is left.
      const closeMin = window.closes.by === 'horizon' ? Number.POSITIVE_INFINITY : Math.floor(window.closeMin)
      return { openMin: Math.max(from.minute, Math.ceil(window.openMin)), closeMin }
    })
    const closing = [...closers].reduce((most, next) => (next[1] > most[1] ? next : most))[0]
    return {
      openMin: windows.map(({ openMin }) => openMin),
      closeMin: windows.map(({ closeMin }) => closeMin),
      closingPart: ware.partNames[ware.classOfPart.indexOf(closing)] ?? '',
    }
  })
}

/**
 * Where the clay is at the end of a piece of work when each draw waits under its own spans, and in which draws every
 * part that the work needs is inside the band from its beginning to its end.
 */
export function followed(
  ware: Ware,
  from: ClayState,
  spansByDraw: readonly (readonly CoverSpan[])[],
  work: { readonly fromMin: Minute; readonly toMin: Minute; readonly band: StepBand; readonly partIndexes: readonly number[] },
): { readonly state: ClayState; readonly held: readonly boolean[] } {
  const classes = classesOf(ware, work.partIndexes)
  const states: PartState[][] = []
  const held = ware.draws.map((draw, d) => {
    const paths = ware.classes.map((part, c) =>
      trajectory({ part, spans: spansByDraw[d]!, airOfSpot: ware.airOfSpot, draw, toMin: work.toMin, ...startOf(from, d, c) }),
    )
    states.push(paths.map(({ end }) => end))
    return isHeld(classes.map((c) => paths[c]!), draw, work)
  })
  const history = spansByDraw.map((spans) => spans.map(({ fromMin, cover }) => `${fromMin}${cover}`).join('')).join(';')
  return { state: { key: `${from.key}>${history}>${work.toMin}`, minute: work.toMin, states }, held }
}

/** Whether all of a piece of work falls inside the band, in one draw. */
function isHeld(paths: readonly Trajectory[], draw: Draw, work: { readonly fromMin: Minute; readonly toMin: Minute; readonly band: StepBand }): boolean {
  const { openAtDb, closeAtDb, rimCloseAtDb, maxDifferenceDb } = moistureBandOf(work.band, draw)
  const apart = (minute: Minute) => {
    const means = paths.map((path) => moistureAt(path.minute, path.meanDb, minute))
    return Math.max(...means) - Math.min(...means) > maxDifferenceDb
  }
  return (
    paths.every(
      (path) =>
        moistureAt(path.minute, path.meanDb, work.fromMin) <= openAtDb &&
        moistureAt(path.minute, path.meanDb, work.toMin) > closeAtDb &&
        moistureAt(path.minute, path.rimDb, work.toMin) > rimCloseAtDb,
    ) && !(paths.length > 1 && Number.isFinite(maxDifferenceDb) && (apart(work.fromMin) || apart(work.toMin)))
  )
}

/** By draw, when the built piece is dry at its thickest spot under these spans; Infinity: not within a reasonable time. */
export function dryMinutes(wares: Wares, ware: Ware, from: ClayState, spans: readonly CoverSpan[]): readonly number[] {
  return kept(wares, `d ${from.key} ${spansKey(spans)}`, () =>
    ware.draws.map((draw, d) => {
      const dryDb = boneDryDb(draw.oswinA, draw.oswinB)
      const start = wettestOf(from, d)
      const path = trajectory({
        part: ware.built,
        spans,
        airOfSpot: ware.airOfSpot,
        draw,
        toMin: from.minute + LONGEST_DRYING_MIN,
        untilDb: dryDb,
        ...(start ? { start } : {}),
      })
      return Math.ceil(fallsTo(path.minute, path.wettestDb, dryDb))
    }),
  )
}

/** The built piece starts as its wettest part is. */
function wettestOf(from: ClayState, d: number): PartState | undefined {
  if (!from.states) return undefined
  const wettest = from.states[d]!.reduce((most, next) => (sumOf(next) > sumOf(most) ? next : most))
  return { minute: from.minute, middle: wettest.middle }
}

const sumOf = ({ middle }: PartState): number => middle.cellsDb.reduce((sum, db) => sum + db, 0)

const classesOf = (ware: Ware, partIndexes: readonly number[]): readonly number[] =>
  [...new Set(partIndexes.map((p) => ware.classOfPart[p]!))].toSorted((a, b) => a - b)

const startOf = (from: ClayState, d: number, c: number): { start?: PartState } => {
  const start = from.states?.[d]?.[c]
  return start ? { start } : {}
}

const spansKey = (spans: readonly CoverSpan[]): string => spans.map(({ fromMin, cover, spotId }) => `${fromMin}${cover}@${spotId}`).join()

function kept<Value>(wares: Wares, key: string, make: () => Value): Value {
  const known = wares.memo.get(key)
  if (known !== undefined) return known as Value
  const made = make()
  wares.memo.set(key, made)
  return made
}
