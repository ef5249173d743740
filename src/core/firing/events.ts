import { boilingPointC } from './candling.ts'
import type { CurvePoint, EventSpan, FiringEvent } from './types.ts'

/**
 * What happens to ware on the way up and down.
 * @see steam and burn-out: common practice; dehydroxylation: Vaughan 1955, main step from about 520 °C; quartz at 573 °C, 0.45 %
 * linear: Dodd & Murfin 1994, Fraser 1986; cristobalite about 226 °C: from memory; carbonates: from memory; sintering and
 * vitrification: handbook practice; opening: makers' 200 °F
 */
export const firingEvents: readonly FiringEvent[] = [
  { code: 'steam', lowC: 20, highC: 120, direction: 'heating' },
  { code: 'burn-out', lowC: 300, highC: 700, direction: 'heating' },
  { code: 'dehydroxylation', lowC: 450, highC: 600, direction: 'heating' },
  { code: 'quartz-inversion', lowC: 565, highC: 580, direction: 'both' },
  { code: 'carbonate-decomposition', lowC: 650, highC: 950, direction: 'heating' },
  { code: 'sintering', lowC: 880, highC: 1000, direction: 'heating' },
  { code: 'vitrification', lowC: 1100, highC: 1300, direction: 'heating' },
  { code: 'cristobalite-inversion', lowC: 215, highC: 240, direction: 'both' },
  { code: 'safe-to-open', lowC: 0, highC: 95, direction: 'cooling' },
]

/** Steam stops this far above boiling, where the table's band ends at sea level. */
const STEAM_ABOVE_BOILING_K = 20

/**
 * The events that a firing meets and when, in the order of their start, for marking on the curve.
 * @param curve from start to unloading; the hottest point parts heating from cooling
 * @param altitudeM lowers the end of steam with the boiling point
 */
export function eventsOn(curve: readonly CurvePoint[], altitudeM = 0): EventSpan[] {
  const hottestC = Math.max(...curve.map(({ tempC }) => tempC))
  const topIndex = curve.findLastIndex(({ tempC }) => tempC === hottestC)
  const heating = curve.slice(0, topIndex + 1)
  const cooling = curve.slice(topIndex)
  return firingEvents
    .map((event) =>
      event.code === 'steam' ? { ...event, highC: boilingPointC(altitudeM) + STEAM_ABOVE_BOILING_K } : event,
    )
    .flatMap((event) => [
      ...(event.direction === 'cooling' ? [] : spanWithin(heating, event, 'heating')),
      ...(event.direction === 'heating' ? [] : spanWithin(cooling, event, 'cooling')),
    ])
    .toSorted((a, b) => a.startMin - b.startMin)
}

function spanWithin(part: readonly CurvePoint[], event: FiringEvent, direction: 'heating' | 'cooling'): EventSpan[] {
  const rising = direction === 'heating'
  const startMin = firstCrossing(part, rising ? event.lowC : event.highC, rising)
  if (startMin === undefined) return []
  const endMin = firstCrossing(part, rising ? event.highC : event.lowC, rising) ?? part.at(-1)!.atMin
  return endMin > startMin ? [{ code: event.code, direction, startMin, endMin }] : []
}

/** When a curve first stands at or beyond a temperature. */
function firstCrossing(part: readonly CurvePoint[], tempC: number, rising: boolean): number | undefined {
  const index = part.findIndex((point) => (rising ? point.tempC >= tempC : point.tempC <= tempC))
  const after = part[index]
  const before = part[index - 1]
  if (!after || !before) return after?.atMin
  return before.atMin + ((tempC - before.tempC) / (after.tempC - before.tempC)) * (after.atMin - before.atMin)
}
