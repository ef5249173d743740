import type { Interval } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import { quickSaturationPa } from './saturationTable.ts'
import type { Air, AirAt } from './types.ts'

/** What could be done to a spot's air, or happens to it. All that is given acts together. */
export type AirWhatIf = {
  /** A heater's warmth; the water in the air stays the same. */
  readonly heaterK?: number
  /** A fan's stream over the ware (0.5 to 1.5 m/s is usual; from memory). */
  readonly fanMS?: number
  /** A dehumidifier keeps the air at or below this. */
  readonly dehumidifierRh?: number
  /** Firings in the same room: warmth while one runs, fading afterwards. */
  readonly kilnRuns?: readonly (Interval & { readonly warmthK: number })[]
}

/** A room gives off a kiln's warmth over about this long. Assumption. */
const KILN_FADES_MIN = 6 * MIN_PER_HOUR
const KILN_WARMS_MIN = 3 * MIN_PER_HOUR

/** A spot's air as it would be. Relative humidity follows the warmth at the same vapour pressure. */
export function airIf(airAt: AirAt, whatIf: AirWhatIf): AirAt {
  return (minute): Air => {
    const before = airAt(minute)
    const tempC = before.tempC + (whatIf.heaterK ?? 0) + kilnWarmthK(whatIf, minute)
    const warmed = (before.rh * quickSaturationPa(before.tempC)) / quickSaturationPa(tempC)
    return {
      tempC,
      rh: Math.min(1, warmed, whatIf.dehumidifierRh ?? 1),
      airSpeedMS: Math.max(before.airSpeedMS, whatIf.fanMS ?? 0),
    }
  }
}

/** Warmth of the warmest run: it builds up while the kiln runs and fades once it is off. */
function kilnWarmthK({ kilnRuns = [] }: AirWhatIf, minute: number): number {
  const warmths = kilnRuns.map(({ startMin, endMin, warmthK }) => {
    if (minute <= startMin) return 0
    const running = Math.min(minute, endMin) - startMin
    const built = warmthK * (1 - Math.exp(-running / KILN_WARMS_MIN))
    return minute > endMin ? built * Math.exp(-(minute - endMin) / KILN_FADES_MIN) : built
  })
  return Math.max(0, ...warmths)
}
