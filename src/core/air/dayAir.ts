import type { Minute } from '../time.ts'
import { MIN_PER_HOUR } from '../units.ts'
import type { AirOutlook } from './types.ts'

/** The air of one day at one spot: its middle, how far it goes by the hour, and how far all that may stray. */
export type DayAir = {
  readonly startMin: Minute
  readonly tempC: number
  readonly tempLowC: number
  readonly tempHighC: number
  /** 0 to 1. */
  readonly rh: number
  readonly rhLow: number
  readonly rhHigh: number
  /** One standard deviation, of the middle hour by hour: root of the mean square. */
  readonly tempSpreadK: number
  readonly rhSpread: number
}

/**
 * An outlook by days.
 * @param dayStarts first minutes of days, rising, and of the day after the last; days have 23 to 25 hours
 * @returns one less than `dayStarts`; days that the outlook does not reach are left out
 */
export function dayAirs(outlook: AirOutlook, dayStarts: readonly Minute[]): DayAir[] {
  return dayStarts.slice(0, -1).flatMap((startMin, i) => {
    const from = Math.max(0, Math.ceil((startMin - outlook.startMin) / MIN_PER_HOUR))
    const to = Math.ceil((dayStarts[i + 1]! - outlook.startMin) / MIN_PER_HOUR)
    const tempC = outlook.tempC.slice(from, to)
    const rh = outlook.rh.slice(from, to)
    if (to <= from || tempC.length === 0) return []
    return [
      {
        startMin,
        tempC: mean(tempC),
        tempLowC: Math.min(...tempC),
        tempHighC: Math.max(...tempC),
        rh: mean(rh),
        rhLow: Math.min(...rh),
        rhHigh: Math.max(...rh),
        tempSpreadK: rootMeanSquare(outlook.tempSpreadK.slice(from, to)),
        rhSpread: rootMeanSquare(outlook.rhSpread.slice(from, to)),
      },
    ]
  })
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length
const rootMeanSquare = (values: readonly number[]): number => Math.sqrt(mean(values.map((value) => value ** 2)))
