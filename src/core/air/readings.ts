import type { Minute } from '../time.ts'
import { MIN_PER_DAY } from '../units.ts'
import type { AirReading } from './types.ts'

/** Why a reading was set aside, or what is odd about the log as a whole. */
export type AirNote = {
  readonly code:
    | 'reading-not-a-number'
    | 'temperature-out-of-range'
    | 'humidity-out-of-range'
    | 'log-silent-for-days'
    | 'log-has-gaps'
    | 'nothing-logged'
  readonly params: Readonly<Record<string, number>>
}

/** What studio air can be; readings beyond are mistakes of sensor or hand. */
export const POSSIBLE_AIR = { coldestC: -40, warmestC: 60, dampestRh: 1 } as const
/**
 * How far a household sensor may read off all the time (standard deviations): half a kelvin, 3 points of humidity.
 * Assumption; makers of such sensors give 2 to 5 points.
 */
export const SENSOR_BIAS = { tempK: 0.5, rh: 0.03 } as const
/** Hygrometers show up to this in saturated air; counted as saturated. */
const OVER_SATURATED_RH = 1.05
const SILENT_DAYS = 7
const GAP_HOURS = 12

export type CheckedReadings = { readonly readings: readonly AirReading[]; readonly notes: readonly AirNote[] }

/**
 * The usable readings in order, one a minute (the last said counts), with a note for each kind of what was set aside
 * and for silences. Never throws, whatever a sensor wrote.
 */
export function checkedReadings(readings: readonly AirReading[], nowMin: Minute): CheckedReadings {
  const counts = new Map<AirNote['code'], number>()
  const worst = new Map<AirNote['code'], number>()
  const byMinute = new Map<Minute, AirReading>()
  for (const reading of readings) {
    const fault = faultOf(reading)
    if (fault) {
      counts.set(fault.code, (counts.get(fault.code) ?? 0) + 1)
      worst.set(fault.code, fault.value)
    } else byMinute.set(reading.minute, { ...reading, rh: Math.min(1, reading.rh) })
  }
  const usable = [...byMinute.values()].toSorted((a, b) => a.minute - b.minute)
  const faults = [...counts].map(([code, count]): AirNote => ({ code, params: { count, value: worst.get(code)! } }))
  return { readings: usable, notes: [...faults, ...silences(usable, nowMin)] }
}

function faultOf({ minute, tempC, rh }: AirReading): { code: AirNote['code']; value: number } | undefined {
  if (![minute, tempC, rh].every(Number.isFinite)) return { code: 'reading-not-a-number', value: 0 }
  if (tempC < POSSIBLE_AIR.coldestC || tempC > POSSIBLE_AIR.warmestC)
    return { code: 'temperature-out-of-range', value: tempC }
  if (rh < 0 || rh > OVER_SATURATED_RH) return { code: 'humidity-out-of-range', value: rh }
  return undefined
}

function silences(readings: readonly AirReading[], nowMin: Minute): AirNote[] {
  const last = readings.findLast(({ minute }) => minute <= nowMin)
  if (!last) return [{ code: 'nothing-logged', params: {} }]
  const notes: AirNote[] = []
  const silentDays = Math.floor((nowMin - last.minute) / MIN_PER_DAY)
  if (silentDays >= SILENT_DAYS) notes.push({ code: 'log-silent-for-days', params: { days: silentDays } })
  const gapHours = readings.slice(1).map(({ minute }, i) => (minute - readings[i]!.minute) / 60)
  const longGaps = gapHours.filter((hours) => hours > GAP_HOURS)
  if (longGaps.length > 0) {
    notes.push({
      code: 'log-has-gaps',
      params: { count: longGaps.length, longestHours: Math.round(Math.max(...longGaps)) },
    })
  }
  return notes
}
