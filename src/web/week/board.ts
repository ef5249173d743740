/** The measures of the drawn board: minutes to pixels and back, and which lanes are in sight. */
import type { Minute } from '#core/time.ts'
import type { Lane, Span } from './lane.ts'

export const LANE_PX = 30
/** A day no narrower than this, so that words find room. */
const LEAST_DAY_PX = 150

export type Scale = Span & { readonly widthPx: number }

/** Days fill the room there is; where it is small, the board scrolls. */
export const scaleOf = (span: Span, dayCount: number, roomPx: number): Scale => ({
  ...span,
  widthPx: Math.max(roomPx, dayCount * LEAST_DAY_PX),
})

export const xOf = (minute: Minute, { fromMin, toMin, widthPx }: Scale): number =>
  ((minute - fromMin) / (toMin - fromMin)) * widthPx

/** Minutes that a way along the lanes stands for. */
export const minutesOf = (px: number, { fromMin, toMin, widthPx }: Scale): number => (px / widthPx) * (toMin - fromMin)

/** First and last lane in sight, with some beside them, so that scrolling finds them drawn. */
export function lanesInSight(
  count: number,
  scrollPx: number,
  heightPx: number,
): { readonly from: number; readonly to: number } {
  const beside = 4
  const first = Math.min(Math.floor(scrollPx / LANE_PX), count)
  return {
    from: Math.max(0, first - beside),
    to: Math.min(count, Math.ceil((scrollPx + heightPx) / LANE_PX) + beside),
  }
}

/**
 * Whose lane a pointer is over when it has gone so far from the lane it began in.
 * @returns undefined over a lane that is nobody's hands
 */
export function makerAfter(lanes: readonly Lane[], fromMakerId: string, downPx: number): string | undefined {
  const from = lanes.findIndex(({ makerId }) => makerId === fromMakerId)
  return lanes[from + Math.round(downPx / LANE_PX)]?.makerId
}
