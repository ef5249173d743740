import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import { demandOf, exposureKey, type Demand, type DemandBook } from './demand.ts'
import { exposureOf, type Exposure, type Zone } from './surroundings.ts'
import type { CoverSpan, Draw, PartClass, PartState } from './types.ts'

/** One part in one draw from its cut, or from where it is, under given covers. */
export type CurveRequest = {
  /** Must reach from `cutMin` (and the start's minute) to `endMin`. */
  readonly book: DemandBook
  readonly part: PartClass
  readonly spans: readonly CoverSpan[]
  readonly cutMin: Minute
  readonly endMin: Minute
  readonly draw: Draw
  /** Index of the draw in the book. */
  readonly d: number
  readonly start: PartState | undefined
}

/** A stretch under one exposure; hours are counted from the book's first. */
export type Leg = {
  readonly fromHour: number
  readonly toHour: number
  readonly demand: Demand
  readonly exposure: Exposure
  readonly dampenedKgM2: number
  /** The board under it is a fresh one from here on. */
  readonly freshBoard: boolean
}

/** Legs of a zone, one after the other from the start to `endMin`. */
export function legsOf({ book, part, spans, cutMin, endMin, draw, d, start }: CurveRequest, zone: Zone): Leg[] {
  const legs: Leg[] = []
  const beginMin = start?.minute ?? cutMin
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!
    const fromMin = Math.max(beginMin, span.fromMin)
    const toMin = Math.min(endMin, spans[i + 1]?.fromMin ?? Infinity)
    if (toMin <= fromMin) continue
    const exposure = exposureOf(part, zone, span, draw)
    legs.push({
      fromHour: fromMin / MIN_PER_HOUR - book.firstHour,
      toHour: toMin / MIN_PER_HOUR - book.firstHour,
      demand: demandOf(book, exposureKey(exposure, span.spotId), span.spotId, exposure, d),
      exposure,
      dampenedKgM2: span.dampenedKgM2 ?? 0,
      freshBoard: span.board !== undefined,
    })
  }
  return legs
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
