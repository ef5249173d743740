/**
 * Clay while a plan looks ahead: every part of a run's pieces in every common draw, followed from where it is under the
 * covers that are tried. Answers are kept, since constructions ask the same again and again.
 */
import type { DemandBook } from '#core/drying/demand.ts'
import { fastCurve } from '#core/drying/fastPath.ts'
import type { AirOfSpot, CoverSpan, Draw, PartClass, PartState, StepBand } from '#core/drying/types.ts'
import { moistureBandOf, type PartCurve, windowOf } from '#core/drying/windows.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'

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
export type Work = {
  readonly fromMin: Minute
  readonly toMin: Minute
  readonly band: StepBand
  readonly partIndexes: readonly number[]
}

/** By draw, when a step could first and last be done if the cover stays as it is; Infinity where it does not come to it. */
export type DrawSpans = {
  readonly openMin: readonly number[]
  readonly closeMin: readonly number[]
  readonly closingPart: string
}

export type Wares = { readonly memo: Map<string, unknown> }

export const emptyWares = (): Wares => ({ memo: new Map() })

/** How far a run is followed under one covering while a slot is looked for. */
export const LOOK_AHEAD_MIN = 4 * MIN_PER_DAY

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

/**
 * When the step's band is passed under these covers, by draw, over the classes that the step needs: by the fast path,
 * to be settled by the full model (`settled`).
 */
export function spansUnder(
  wares: Wares,
  ware: Ware,
  path: ClayPath,
  spans: readonly CoverSpan[],
  band: StepBand,
  partIndexes: readonly number[],
): DrawSpans {
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
      const closeMin =
        window.closes.by === 'horizon' ? Number.POSITIVE_INFINITY : Math.floor(window.closeMin) - FAST_MARGIN_MIN
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
  return isFirst
    ? kept(wares, `w ${path.key} ${spansKey(spans)} ${JSON.stringify(band)} ${classes.join()}`, reckoned)
    : reckoned()
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

function curveOf(
  ware: Ware,
  { start }: ClayPath,
  spans: readonly CoverSpan[],
  c: number,
  d: number,
  endMin: Minute,
): PartCurve {
  const state = start.states?.[d]?.[c]
  return fastCurve({
    book: ware.book.sums,
    part: ware.classes[c]!,
    spans,
    cutMin: start.minute,
    endMin,
    draw: ware.draws[d]!,
    d,
    start: state,
  })
}

/** The classes of these parts, each once, rising. */
export const classesOf = (ware: Ware, partIndexes: readonly number[]): readonly number[] =>
  [...new Set(partIndexes.map((p) => ware.classOfPart[p]!))].toSorted((a, b) => a - b)

/** Spans as a key. */
export const spansKey = (spans: readonly CoverSpan[]): string =>
  spans.map(({ fromMin, cover, spotId }) => `${fromMin}${cover}@${spotId}`).join()

/** The answer known for a key, or made now. */
export function kept<Value>(wares: Wares, key: string, make: () => Value): Value {
  const known = wares.memo.get(key)
  if (known !== undefined) return known as Value
  const made = make()
  wares.memo.set(key, made)
  return made
}
