import { POSSIBLE_AIR } from './readings.ts'
import type { AirReading } from './types.ts'

/**
 * A forecast of the weather outside as anyone can write it:
 * `{"format": "wareboard-forecast", "version": 1, "hours": [{"at": "2026-01-05T06:00Z", "tempC": 3.5, "rh": 0.81}]}`
 * with times in UTC, °C, and relative humidity from 0 to 1 against water.
 */
export type ForecastOutcome =
  | { readonly ok: true; readonly readings: readonly AirReading[] }
  | {
      readonly ok: false
      readonly reason: { readonly code: ForecastFault; readonly params: Readonly<Record<string, string | number>> }
    }

export type ForecastFault = 'not-a-forecast' | 'version-not-known' | 'hour-not-understood' | 'value-out-of-range'

const VERSION = 1
const UTC_TIME = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?Z$/

/** Reads a forecast that has been parsed from JSON; the first hour that is wrong is named (counted from 1). */
export function readForecast(json: unknown): ForecastOutcome {
  if (!isRecord(json) || json['format'] !== 'wareboard-forecast' || !Array.isArray(json['hours'])) {
    return fault('not-a-forecast', {})
  }
  if (json['version'] !== VERSION) return fault('version-not-known', { version: String(json['version']) })
  const readings: AirReading[] = []
  for (const [i, hour] of (json['hours'] as unknown[]).entries()) {
    if (!isRecord(hour)) return fault('hour-not-understood', { hour: i + 1 })
    const { at, tempC, rh } = hour
    if (typeof at !== 'string' || !UTC_TIME.test(at) || typeof tempC !== 'number' || typeof rh !== 'number') {
      return fault('hour-not-understood', { hour: i + 1 })
    }
    const minute = Math.round(Date.parse(at) / 60_000)
    if (!Number.isFinite(minute)) return fault('hour-not-understood', { hour: i + 1 })
    const { coldestC, warmestC, dampestRh } = POSSIBLE_AIR
    if (!(tempC >= coldestC && tempC <= warmestC && rh >= 0 && rh <= dampestRh)) {
      return fault('value-out-of-range', { hour: i + 1, tempC, rh })
    }
    readings.push({ minute, tempC, rh })
  }
  return { ok: true, readings }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const fault = (code: ForecastFault, params: Readonly<Record<string, string | number>>): ForecastOutcome => ({
  ok: false,
  reason: { code, params },
})
