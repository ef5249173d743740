import type { Minute } from '../time.ts'
import { trajectory } from './fullModel.ts'
import { curvesWithRecourse } from './recourse.ts'
import type { AirOfSpot, CoverRegime, CoverSpan, Draw, PartClass, PartState, StepBand, WindowTable } from './types.ts'
import { curveOf, moistureBandOf, tableOf, windowOf, type DrawWindow, type PartCurve } from './windows.ts'

export type WindowRequest = {
  readonly parts: readonly PartClass[]
  /** One band per step, in the steps' order: all are read from the same trajectories. */
  readonly bands: readonly StepBand[]
  readonly regime: CoverRegime
  readonly cutMin: readonly Minute[]
  readonly draws: readonly Draw[]
  readonly airOfSpot: AirOfSpot
  /** How long after its cut a run is followed. */
  readonly horizonMin: number
  /** For a run under way, at its one `cutMin` (the moment of these states): [part][draw]. */
  readonly starts?: readonly (readonly PartState[])[]
}

/**
 * Windows of every step by the full model: slow and exact, for checking plans and settling what the fast path found.
 * @returns one table per band
 */
export function fullWindowTables(request: WindowRequest): WindowTable[] {
  const rows = request.cutMin.map((cutMin) => fullRow(request, cutMin))
  return request.bands.map((_, step) =>
    tableOf(
      request.cutMin,
      rows.map((row) => row[step]!),
    ),
  )
}

/** Windows at one cut, [band][draw]. */
function fullRow(request: WindowRequest, cutMin: Minute): DrawWindow[][] {
  const { parts, bands, draws } = request
  const spans = request.regime.spansFrom(cutMin)
  const toMin = cutMin + request.horizonMin
  const windows: DrawWindow[][] = bands.map(() => [])
  draws.forEach((draw, d) => {
    const limits = bands.map((band) => moistureBandOf(band, draw))
    const untilDb = Math.min(...limits.map(({ closeAtDb, rimCloseAtDb }) => Math.min(closeAtDb, rimCloseAtDb)))
    const curvesUnder = (under: readonly CoverSpan[]): PartCurve[] =>
      parts.map((part, p) => {
        const start = request.starts?.[p]?.[d]
        const known = { ...(start && { start }), ...(untilDb > 0 && { untilDb }) }
        return curveOf(trajectory({ part, spans: under, airOfSpot: request.airOfSpot, draw, toMin, ...known }))
      })
    const curves = curvesWithRecourse(curvesUnder, spans, request.regime.recourse, limits, cutMin)
    limits.forEach((limit, step) => windows[step]!.push(windowOf(curves, limit)))
  })
  return windows
}
