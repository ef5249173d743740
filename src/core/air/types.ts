import type { Minute } from '../time.ts'

/** The air at one moment. `rh` is 0 to 1; `airSpeedMS` is the speed over the ware (still room air is about 0.1). */
export type Air = { readonly tempC: number; readonly rh: number; readonly airSpeedMS: number }

/** The air of one spot over time, in one draw of chance. Defined for every minute, past and future. */
export type AirAt = (minute: Minute) => Air

/** One line of an air log: what a sensor or a person read. */
export type AirReading = { readonly minute: Minute; readonly tempC: number; readonly rh: number }

/** What someone who measures nothing can say of a spot. */
export type AirWord = 'dry' | 'normal' | 'damp'

/**
 * Where a studio's knowledge of a spot's air comes from: its own log (a word stands in until something is logged), the
 * weather outside brought to room temperature, or a word alone.
 */
export type SpotAir =
  | { readonly kind: 'log'; readonly word: AirWord }
  | { readonly kind: 'outdoors'; readonly setPointC: number }
  | { readonly kind: 'word'; readonly word: AirWord }

/**
 * The air of one spot hour by hour, its middle value and how far it may stray. Reading i belongs to minute
 * `startMin + 60 i`; between readings the air changes evenly, before the first and after the last it stays.
 */
export type AirOutlook = {
  readonly startMin: Minute
  readonly tempC: readonly number[]
  readonly rh: readonly number[]
  readonly airSpeedMS: readonly number[]
  /** Standard deviation of the temperature, K; near zero over the log, growing with distance. */
  readonly tempSpreadK: readonly number[]
  /** Standard deviation of the humidity, as a share of full humidity (0 to 1). */
  readonly rhSpread: readonly number[]
  /** Of these, what stays from hour to hour: the sensor's bias, season, a spell. */
  readonly tempLastingK: readonly number[]
  readonly rhLasting: readonly number[]
}

/** How one draw strays from an outlook, in standard deviations: warmer or cooler, damper or drier, and from day to day. */
export type OutlookDraw = { readonly warmth: number; readonly damp: number; readonly seed: number }
