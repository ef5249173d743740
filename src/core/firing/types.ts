import type { Interval, Minute } from '#core/time.ts'
import type { Cone, ConeType } from './cones.ts'

/** What a firing is for. A refire is a glaze firing. */
export type FiringKind = 'bisque' | 'glaze'

/** A ramp to `targetC` and a hold there. The sign of the ramp is that of the way to the target; `rateCPerH` > 0. */
export type FiringSegment = {
  readonly rateCPerH: number
  readonly targetC: number
  /** 0 or more. */
  readonly holdMin: number
}

/**
 * Ramps and holds (never a calendar). Candling is the first segment when it holds below the boiling point. With a
 * `cone` the last ramp is meant to bring that cone down; without one the ware is fired by top temperature and hold.
 */
export type FiringSchedule = {
  readonly id?: string
  readonly name: string
  readonly kind: FiringKind
  readonly cone?: Cone
  /** The witness cone used; self-supporting when absent. */
  readonly coneType?: ConeType
  /** Heating, targets rising; at least one. */
  readonly segments: readonly FiringSegment[]
  /** Controlled cooling after the top, targets falling; the kiln is shut off at its end. */
  readonly coolingSegments?: readonly FiringSegment[]
}

/** What a kiln is to a firing: its power, its walls, and how it cools. Every field may be learned from its own readings. */
export type KilnFiring = {
  /** Full power into the chamber: nameplate kW, or burner kW of a gas kiln. */
  readonly powerKw: number
  /** Top temperature by its plate. */
  readonly maxTempC: number
  /** Air around the kiln. */
  readonly ambientC: number
  /** Time constant of cooling, closed. */
  readonly coolingTauH: number
  /** The same with the vent running or the lid cracked. */
  readonly ventedTauH: number
  /** Whether the vent runs while the kiln cools closed. */
  readonly coolsVented: boolean
  /** Brick that is warmed with the load, in full; a part of it counts (see `BRICK_HEATED_RATIO`). */
  readonly brickKg: number
  /** Loss through walls, floor and lid per kelvin above `ambientC`. */
  readonly wallLossWPerK: number
  /** 1.0-1.6, all other losses; learned from one meter reading. */
  readonly lossFactor: number
  /** Minutes from the start at which somebody must turn a manual kiln up; empty when a controller does it. */
  readonly switchUpsMin: readonly Minute[]
  /** Added to the kiln's own readings, learned from witness cones; 0 when nothing is known. */
  readonly readingOffsetC: number
}

/** What stands in the kiln, as heat sees it. */
export type FiringLoad = {
  /** Dry mass of the ware. */
  readonly wareKg: number
  /** Shelves and posts. */
  readonly furnitureKg: number
  /** Water left in the ware, all told. */
  readonly waterKg: number
  /** Share of the ware's dry mass that is kaolinite still to lose its water; 0 once bisque fired. */
  readonly kaoliniteRatio: number
}

/** The two temperatures at which a kiln may be touched. */
export type OpeningSettings = {
  /** The lid may be cracked below this. */
  readonly openBelowC: number
  /** Bare hands may unload below this. */
  readonly unloadBelowC: number
}

/** A point of the temperature curve; straight lines join the points closely enough to draw. */
export type CurvePoint = {
  readonly atMin: number
  readonly tempC: number
  readonly phase: 'heating' | 'holding' | 'controlled-cooling' | 'cooling'
  /** Energy drawn since the start. */
  readonly usedKwh: number
}

/** Minutes from the start of the firing, whole and rounded up: a kiln is never said to be ready before it is. */
export type FiringTimes = {
  /** Shut-off: end of the top hold, or of controlled cooling. Somebody is there. */
  readonly durationMin: Minute
  /** End of the hold at top temperature. */
  readonly topMin: Minute
  /** Somebody is there at each of these as well. */
  readonly switchUpsMin: readonly Minute[]
  /** The lid may be cracked. */
  readonly openMin: Minute
  /** Ware may be taken out with bare hands, if the lid was cracked at `openMin`. */
  readonly unloadMin: Minute
  readonly curve: readonly CurvePoint[]
}

export type FiringReasonCode =
  | 'above-kiln-maximum'
  | 'power-too-low'
  | 'cones-differ'
  | 'top-temperatures-differ'
  | 'holds-differ'
  | 'coolings-differ'
  | 'kinds-differ'
  | 'no-members'

/** Why a firing cannot be had; `src/words` makes the sentence. */
export type FiringReason = {
  readonly code: FiringReasonCode
  readonly params: Readonly<Record<string, number | string>>
}

export type FiringOutcome =
  | { readonly kind: 'times'; readonly times: FiringTimes; readonly slowedByPower: boolean }
  | { readonly kind: 'impossible'; readonly reason: FiringReason }

/** Something that happens to ware at a temperature, to be marked on the curve. */
export type FiringEventCode =
  | 'steam'
  | 'burn-out'
  | 'dehydroxylation'
  | 'quartz-inversion'
  | 'carbonate-decomposition'
  | 'sintering'
  | 'vitrification'
  | 'cristobalite-inversion'
  | 'safe-to-open'

export type FiringEvent = {
  readonly code: FiringEventCode
  readonly lowC: number
  readonly highC: number
  readonly direction: 'heating' | 'cooling' | 'both'
}

/** An event met by a curve: from entering its band to leaving it. */
export type EventSpan = Interval & { readonly code: FiringEventCode; readonly direction: 'heating' | 'cooling' }

/** What a unit of energy costs; spans by clock time are made by the calendar and override the base price. */
export type Tariff = {
  readonly basePricePerKwh: number
  readonly spans: readonly (Interval & { readonly pricePerKwh: number })[]
}
