import { MIN_PER_HOUR } from '#core/units.ts'
import { cooledAlone, cooledUnderPower, heated } from './curve.ts'
import type {
  CurvePoint,
  FiringLoad,
  FiringOutcome,
  FiringReason,
  FiringSchedule,
  FiringSegment,
  FiringTimes,
  KilnFiring,
  OpeningSettings,
} from './types.ts'

/** Lid crack below 95 °C (makers say 200 °F), bare hands below 50 °C (50-65, common practice). */
export const usualOpening: OpeningSettings = { openBelowC: 95, unloadBelowC: 50 }

/** Nothing in the kiln: for a test firing, or where the load is not known yet. */
export const emptyLoad: FiringLoad = { wareKg: 0, furnitureKg: 0, waterKg: 0, kaoliniteRatio: 0 }

/** How near to the air's own temperature cooling is followed: on a hot day a limit below it would never come. */
const NEAREST_TO_AMBIENT_K = 5

/**
 * When a firing ends and when its kiln may be touched. Segments are followed as the kiln's power allows with that load; cooling
 * is closed to the lid crack, then open. A kiln is busy from the start of loading to the end of unloading: hand times are
 * the caller's.
 * @param startC what the kiln is at when it is lit, from a firing before; the room's temperature when absent.
 * Segments it has passed are left out, candling too
 * @returns times, or why this kiln cannot fire that: its plate or its power
 * @throws RangeError for a schedule whose targets do not rise (heating) or fall (cooling), or with a rate of 0 or less
 */
export function firingTimes(
  schedule: FiringSchedule,
  kiln: KilnFiring,
  load: FiringLoad,
  opening: OpeningSettings = usualOpening,
  startC: number = kiln.ambientC,
): FiringOutcome {
  assertSegments(schedule)
  const topC = schedule.segments.at(-1)!.targetC
  if (topC > kiln.maxTempC) {
    return impossible({ code: 'above-kiln-maximum', params: { topC, maxTempC: kiln.maxTempC } })
  }
  const start: CurvePoint = { atMin: 0, tempC: startC, phase: 'heating', usedKwh: 0 }
  const stillToHeat = schedule.segments.filter(({ targetC }) => targetC > startC)
  const heating = heated(start, stillToHeat, kiln, load)
  if ('stuckAtC' in heating) {
    return impossible({ code: 'power-too-low', params: { stuckAtC: heating.stuckAtC, topC, powerKw: kiln.powerKw } })
  }
  return {
    kind: 'times',
    times: timesAfter(heating.points, schedule, kiln, opening),
    slowedByPower: heating.slowedByPower,
  }
}

/** Time through heating segments at the rates they ask, by any kiln strong enough; not rounded. @see W11, W12 */
export function segmentsMin(segments: readonly FiringSegment[], startC: number): number {
  let fromC = startC
  let totalMin = 0
  for (const { rateCPerH, targetC, holdMin } of segments) {
    totalMin += (Math.abs(targetC - fromC) / rateCPerH) * MIN_PER_HOUR + holdMin
    fromC = targetC
  }
  return totalMin
}

function timesAfter(
  heating: readonly CurvePoint[],
  schedule: FiringSchedule,
  kiln: KilnFiring,
  opening: OpeningSettings,
): FiringTimes {
  const tauH = kiln.coolsVented ? kiln.ventedTauH : kiln.coolingTauH
  const top = heating.at(-1)!
  const leastC = kiln.ambientC + NEAREST_TO_AMBIENT_K
  const coolingSegments = (schedule.coolingSegments ?? []).filter(({ targetC }) => targetC >= leastC)
  const controlled = cooledUnderPower(top, coolingSegments, kiln, tauH)
  const shutOff = controlled.at(-1) ?? top
  const closed = cooledAlone(shutOff, Math.max(opening.openBelowC, leastC), { ambientC: kiln.ambientC, tauH })
  const open = closed.at(-1) ?? shutOff
  const cracked = cooledAlone(open, Math.max(opening.unloadBelowC, leastC), {
    ambientC: kiln.ambientC,
    tauH: kiln.ventedTauH,
  })
  const durationMin = wholeMin(shutOff.atMin)
  return {
    durationMin,
    topMin: wholeMin(top.atMin),
    switchUpsMin: kiln.switchUpsMin.filter((atMin) => atMin < durationMin),
    openMin: wholeMin(open.atMin),
    unloadMin: wholeMin((cracked.at(-1) ?? open).atMin),
    curve: [...heating, ...controlled, ...closed, ...cracked],
  }
}

/** Rounded up, but not for the dust of floating point. */
const wholeMin = (min: number): number => Math.ceil(min - 1e-6)

const impossible = (reason: FiringReason): FiringOutcome => ({ kind: 'impossible', reason })

function assertSegments({ segments, coolingSegments = [] }: FiringSchedule): void {
  if (segments.length === 0) throw new RangeError('a firing schedule has at least one segment')
  for (const { rateCPerH, holdMin } of [...segments, ...coolingSegments]) {
    if (!(rateCPerH > 0) || !(holdMin >= 0))
      throw new RangeError('a segment has a rate above 0 and a hold of 0 or more')
  }
  const rises = segments.every(({ targetC }, index) => targetC > (segments[index - 1]?.targetC ?? -Infinity))
  const topC = segments.at(-1)!.targetC
  const falls = coolingSegments.every(({ targetC }, index) => targetC < (coolingSegments[index - 1]?.targetC ?? topC))
  if (!rises || !falls) throw new RangeError('targets rise while heating and fall while cooling')
}
