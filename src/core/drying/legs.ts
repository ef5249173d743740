import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import { demandOf, exposureKey, type DemandBook, type Exposed } from './demand.ts'
import { exposureOf, type Zone } from './surroundings.ts'
import type { CoverSpan, PartClass } from './types.ts'

/** A stretch under one kind of exposure, for all draws; hours are counted from the book's first. */
export type SharedLeg = {
  readonly fromHour: number
  readonly toHour: number
  readonly zone: Zone
  readonly span: CoverSpan
  /** [draw], filled in when first asked for. */
  readonly byDraw: (Exposed | undefined)[]
  readonly dampenedKgM2: number
  /** The board under it is a fresh one from here on. */
  readonly freshBoard: boolean
}

/** The same in one draw. */
export type Leg = Pick<SharedLeg, 'fromHour' | 'toHour' | 'dampenedKgM2' | 'freshBoard'> & Exposed

/** What the legs of a part share between draws, cuts and regimes. */
export type LegRequest = {
  /** Must reach from `beginMin` to `endMin`. */
  readonly book: DemandBook
  readonly part: PartClass
  readonly spans: readonly CoverSpan[]
  readonly beginMin: Minute
  readonly endMin: Minute
}

/** Legs of a zone, one after the other from `beginMin` to `endMin`. */
export function sharedLegs({ book, part, spans, beginMin, endMin }: LegRequest, zone: Zone): SharedLeg[] {
  const legs: SharedLeg[] = []
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!
    const begins = span.fromMin >= beginMin
    const fromMin = Math.max(beginMin, span.fromMin)
    const toMin = Math.min(endMin, spans[i + 1]?.fromMin ?? Infinity)
    if (toMin <= fromMin) continue
    legs.push({
      fromHour: fromMin / MIN_PER_HOUR - book.firstHour,
      toHour: toMin / MIN_PER_HOUR - book.firstHour,
      zone,
      span,
      byDraw: exposedByDraw(book, part, zone, span),
      dampenedKgM2: begins ? (span.dampenedKgM2 ?? 0) : 0,
      freshBoard: begins && span.board !== undefined,
    })
  }
  return legs
}

/** One list per part, zone and kind of span, shared by all legs of that kind. */
function exposedByDraw(book: DemandBook, part: PartClass, zone: Zone, span: CoverSpan): (Exposed | undefined)[] {
  let ofPart = book.exposed.get(part)
  if (!ofPart) {
    ofPart = new Map()
    book.exposed.set(part, ofPart)
  }
  const key = `${zone} ${span.cover} ${span.spotId} ${span.board ?? ''} ${span.topOpen ? 1 : 0}`
  let byDraw = ofPart.get(key)
  if (!byDraw) {
    byDraw = book.draws.map(() => undefined)
    ofPart.set(key, byDraw)
  }
  return byDraw
}

/** Legs as they are in one draw. @param d index of the draw in the book */
export function legsInDraw(shared: readonly SharedLeg[], book: DemandBook, part: PartClass, d: number): Leg[] {
  return shared.map(({ fromHour, toHour, dampenedKgM2, freshBoard, zone, span, byDraw }) => {
    const { exposure, demand } = (byDraw[d] ??= exposed(book, part, zone, span, d))
    return { fromHour, toHour, dampenedKgM2, freshBoard, exposure, demand }
  })
}

function exposed(book: DemandBook, part: PartClass, zone: Zone, span: CoverSpan, d: number): Exposed {
  const exposure = exposureOf(part, zone, span, book.draws[d]!)
  return { exposure, demand: demandOf(book, exposureKey(exposure, span.spotId), span.spotId, exposure, d) }
}

/** Value of an hourly series at any hour, by proportion between whole ones. */
export function valueAt(series: Float64Array, hour: number): number {
  const row = hour | 0
  const below = series[row]!
  const share = hour - row
  return share > 0 ? below + share * (series[row + 1]! - below) : below
}

/** What a series gained between two hours. */
export const gainBetween = (series: Float64Array, fromHour: number, toHour: number): number =>
  valueAt(series, toHour) - valueAt(series, fromHour)
