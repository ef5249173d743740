import { MIN_PER_HOUR } from '#core/units.ts'
import type { FiringSchedule, FiringSegment } from './types.ts'

/** Why ware is candled as long as it is; `src/words` says it. */
export type CandlingReason = 'thin-and-dry' | 'thick' | 'doubtful' | 'thick-and-doubtful'

export type Candling = { readonly segment: FiringSegment; readonly reason: CandlingReason }

export type Greenware = {
  /** The thickest spot: seam fillet, foot, rolled rim, base. */
  readonly thickestMm: number
  /** Odds that it is dry there. 0-1 */
  readonly oddsDry: number
}

/** Half an inch: from here ware is thick. Common practice, no source. */
export const THICK_MM = 12.7
/** Below these odds of being dry, ware is doubtful. Our choice: 1 in 20. */
export const DOUBTFUL_BELOW_ODDS = 0.95

const LEAST_H = 1
const DOUBTFUL_OR_THICK_H = 8
const DOUBTFUL_AND_THICK_H = 12
/** Longest hold that ware of `THICK_MM` needs at 85 °C in damp air by the drying model (0.7-2.1 h). */
const THIN_H_AT_THICK = 2.1
const HOTTEST_C = 90
const BELOW_BOILING_K = 8
const RATE_C_PER_H = 60

/**
 * The hold below boiling that greenware needs before it is heated on: never under an hour; thick or doubtful
 * ware 8 h, both 12 h; between, with the square of the thickness.
 * @param altitudeM of the studio: water boils at 95 °C at 1500 m, and the hold stays `BELOW_BOILING_K` under it
 * @see 8-12 h at 80-90 °C and 1-4 h for dry ware: common practice; Mahaffey 2020 (3 h at 82 °C)
 */
export function candlingFor(ware: Greenware, altitudeM = 0): Candling {
  const thick = ware.thickestMm >= THICK_MM
  const doubtful = ware.oddsDry < DOUBTFUL_BELOW_ODDS
  const thinH = Math.max(LEAST_H, THIN_H_AT_THICK * (ware.thickestMm / THICK_MM) ** 2)
  const hours = thick && doubtful ? DOUBTFUL_AND_THICK_H : thick || doubtful ? DOUBTFUL_OR_THICK_H : thinH
  const segment = {
    rateCPerH: RATE_C_PER_H,
    targetC: Math.floor(Math.min(HOTTEST_C, boilingPointC(altitudeM) - BELOW_BOILING_K)),
    holdMin: Math.ceil(hours * MIN_PER_HOUR),
  }
  return { segment, reason: reasonFor(thick, doubtful) }
}

/**
 * The schedule with this candling in front. Candling that it has is kept where it holds longer; a
 * schedule that candles hotter than it may here (altitude) is brought down.
 */
export function withCandling(schedule: FiringSchedule, { segment }: Candling): FiringSchedule {
  const own = candlingOf(schedule)
  const after = schedule.segments.slice(own.length)
  const candling: FiringSegment = {
    rateCPerH: Math.min(segment.rateCPerH, ...own.map(({ rateCPerH }) => rateCPerH)),
    targetC: Math.min(segment.targetC, ...own.map(({ targetC }) => targetC)),
    holdMin: Math.max(segment.holdMin, ...own.map(({ holdMin }) => holdMin)),
  }
  const driesOnly = schedule.segments.at(-1)!.targetC <= candling.targetC
  return driesOnly ? schedule : { ...schedule, segments: [candling, ...after] }
}

/** Leading segments of a schedule that end below boiling at sea level; the last segment is never candling. */
export function candlingOf({ segments }: FiringSchedule): readonly FiringSegment[] {
  const before = segments.slice(0, -1)
  const first = before.findIndex(({ targetC }) => targetC >= 100)
  return first < 0 ? before : before.slice(0, first)
}

/**
 * Where water boils.
 * @param altitudeM -400 to 5000
 * @returns °C, within 0.3 of steam tables
 * @see ICAO standard atmosphere for the pressure; Antoine's equation for water, 1-100 °C (A 8.07131, B 1730.63, C 233.426, mmHg)
 */
export function boilingPointC(altitudeM: number): number {
  const pressureMmHg = 760 * (1 - 2.25577e-5 * altitudeM) ** 5.25588
  return 1730.63 / (8.07131 - Math.log10(pressureMmHg)) - 233.426
}

function reasonFor(thick: boolean, doubtful: boolean): CandlingReason {
  if (thick) return doubtful ? 'thick-and-doubtful' : 'thick'
  return doubtful ? 'doubtful' : 'thin-and-dry'
}
