import type { Minute } from '../time.ts'
import { windowTables, type FastRequest } from './fastPath.ts'
import { spanAt } from './span.ts'
import type { CoverRegime, Span } from './types.ts'

/** A way of covering under which a step's window is there. */
export type Mend = { readonly regimeId: string; readonly span: Span }

/**
 * Which covers would mend an empty window, longest span first; the caller settles the one it shows by the full model.
 * @param request as for `windowTables`; its regime and cut times are left aside
 * @param band index of the step
 */
export function mends(
  request: FastRequest,
  regimes: readonly CoverRegime[],
  band: number,
  cutMin: Minute,
  odds: number,
): Mend[] {
  return regimes
    .flatMap((regime) => {
      const table = windowTables({ ...request, regime, cutMin: [cutMin] })[band]
      const span = table && spanAt(table, cutMin, odds)
      return span && !span.empty ? [{ regimeId: regime.id, span }] : []
    })
    .toSorted((a, b) => b.span.endMin - b.span.startMin - (a.span.endMin - a.span.startMin))
}
