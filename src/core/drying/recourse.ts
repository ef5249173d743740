import type { Minute } from '../time.ts'
import type { CoverKind, CoverSpan, Recourse } from './types.ts'
import { windowOf, type MoistureBand, type PartCurve } from './windows.ts'

/**
 * The curves of all parts in one draw as they come out when somebody looks in and does something about it: bares what
 * lags behind, parks what is ready. The hand feels the clay as it is in this draw.
 * @param curvesUnder how the parts dry under given spans, whatever way that is reckoned
 */
export function curvesWithRecourse(
  curvesUnder: (spans: readonly CoverSpan[]) => PartCurve[],
  spans: readonly CoverSpan[],
  recourse: Recourse | undefined,
  limits: readonly MoistureBand[],
  cutMin: Minute,
): PartCurve[] {
  const planned = curvesUnder(spans)
  const limit = recourse && limits[recourse.forBand]
  if (!recourse || !limit) return planned
  const lookIns = recourse.lookInsFrom(cutMin)
  const { hurry, park } = recourse
  let under = spans
  let curves = planned
  let { openMin } = windowOf(curves, limit)
  const bareMin = hurry && lookIns.find((minute) => minute >= cutMin + hurry.afterMin)
  if (hurry && bareMin !== undefined && bareMin < openMin) {
    under = coveredFrom(under, bareMin, hurry.cover)
    curves = curvesUnder(under)
    openMin = windowOf(curves, limit).openMin
  }
  const parkMin = lookIns.find((minute) => minute >= openMin)
  return parkMin === undefined ? curves : curvesUnder(coveredFrom(under, parkMin, park))
}

/** Spans as planned up to a minute, and one cover from then on, where the ware stands at that time. */
export function coveredFrom(spans: readonly CoverSpan[], fromMin: Minute, cover: CoverKind): CoverSpan[] {
  const before = spans.filter((span) => span.fromMin < fromMin)
  const last = before.at(-1) ?? spans[0]
  if (!last) return []
  const { turned: _turned, dampenedKgM2: _dampened, ...standing } = last
  return [...before, { ...standing, fromMin, cover }]
}
