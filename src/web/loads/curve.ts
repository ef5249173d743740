/** The curve that a firing is reckoned to take, what was read of it, and both as a drawing. */
import { candlingFor, withCandling } from '#core/firing/candling.ts'
import { coolingMin } from '#core/firing/cooling.ts'
import { firingTimes, usualOpening } from '#core/firing/times.ts'
import type { CurvePoint, FiringOutcome, FiringSchedule, KilnFiring } from '#core/firing/types.ts'
import type { Load } from '#core/loading/types.ts'
import type { FiringState } from '#core/logbook/state.ts'
import { firingLoadOf } from '#core/planning/facts/pieces.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import type { Studio } from '../data/queries.ts'
import { weighed } from './weighed.ts'

/** What a firing planned and a firing logged have both. */
export type AnyFiring = Pick<PlannedFiring, 'kilnId' | 'kind' | 'scheduleId' | 'members' | 'candleHours'>

/** With its candling in front. @returns undefined where the schedule is not there any more */
export function scheduleOf({ scheduleId, candleHours }: AnyFiring, studio: Studio): FiringSchedule | undefined {
  const schedule = studio.firingSchedules.find(({ id }) => id === scheduleId)
  if (!schedule || candleHours === 0) return schedule
  const { segment, reason } = candlingFor({ thickestMm: 0, oddsDry: 1 }, studio.studio.rules.altitudeM)
  return withCandling(schedule, { segment: { ...segment, holdMin: candleHours * MIN_PER_HOUR }, reason })
}

/** @param load null: as much furniture as such a kiln usually has */
export function reckonedFiring(firing: AnyFiring, load: Load | null, studio: Studio): FiringOutcome | undefined {
  const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)
  const schedule = scheduleOf(firing, studio)
  if (!kiln || !schedule) return undefined
  const inIt = firingLoadOf(weighed(studio), kiln, load, firing.members, firing.kind)
  return firingTimes(schedule, kiln.firing, inIt)
}

/** What a reading stands beside: where the curve is then. @returns undefined beyond the curve */
export function tempOnCurve(curve: readonly CurvePoint[], atMin: number): number | undefined {
  const next = curve.findIndex((point) => point.atMin >= atMin)
  const after = curve[next]
  const before = curve[next - 1]
  if (!after || atMin < 0) return undefined
  if (!before) return after.tempC
  const share = (atMin - before.atMin) / (after.atMin - before.atMin || 1)
  return before.tempC + share * (after.tempC - before.tempC)
}

export type Opening = { readonly readC: number; readonly readMin: Minute; readonly openMin: Minute }

/**
 * When a kiln that cools may be opened, by its last reading and the way this kiln cools.
 * @returns null while nothing was read after it was shut off
 */
export function openingByReading(
  { readings }: Pick<FiringState, 'readings'>,
  shutOffMin: Minute,
  kiln: KilnFiring,
): Opening | null {
  const last = readings.findLast(({ minute }) => minute >= shutOffMin)
  if (!last) return null
  const tauH = kiln.coolsVented ? kiln.ventedTauH : kiln.coolingTauH
  const readC = last.tempC + kiln.readingOffsetC
  const waitMin = coolingMin(readC, usualOpening.openBelowC, { ambientC: kiln.ambientC, tauH })
  return { readC, readMin: last.minute, openMin: last.minute + Math.ceil(waitMin) }
}

/** A drawing's room, and what of temperature and time it spans. */
export type Frame = {
  readonly widthPx: number
  readonly heightPx: number
  readonly endMin: number
  readonly topC: number
}

const xOf = (atMin: number, { widthPx, endMin }: Frame): number => (atMin / endMin) * widthPx
const yOf = (tempC: number, { heightPx, topC }: Frame): number => heightPx - (tempC / topC) * heightPx

/** Room for the curve and for readings that lie above or beyond it. */
export function frameFor(
  curve: readonly CurvePoint[],
  readings: readonly { readonly atMin: number; readonly tempC: number }[],
): Frame {
  const hottestC = Math.max(...curve.map(({ tempC }) => tempC), ...readings.map(({ tempC }) => tempC))
  const endMin = Math.max(...curve.map(({ atMin }) => atMin), ...readings.map(({ atMin }) => atMin), 1)
  return { widthPx: 480, heightPx: 220, endMin, topC: (Math.floor(hottestC / 100) + 1) * 100 }
}

export const pathOf = (curve: readonly CurvePoint[], frame: Frame): string =>
  `M${curve.map(({ atMin, tempC }) => `${xOf(atMin, frame).toFixed(1)} ${yOf(tempC, frame).toFixed(1)}`).join('L')}`

export const placeOf = (atMin: number, tempC: number, frame: Frame) => ({ x: xOf(atMin, frame), y: yOf(tempC, frame) })

/** Round numbers of a scale, no more than about six. @param least the finest step worth a line */
export function ticksUpTo(most: number, least: number): number[] {
  const steps = [1, 2, 4, 5, 10, 20, 40].map((times) => times * least)
  const step = steps.find((candidate) => most / candidate <= 6) ?? most
  return Array.from({ length: Math.floor(most / step) }, (_, i) => (i + 1) * step)
}
