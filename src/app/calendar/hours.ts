import type { IANAZone } from 'luxon'
import { Refusal } from '#app/refusal.ts'
import type { Tariff } from '#core/firing/types.ts'
import { type Interval, intersectionOf, type Minute, unionOf, withoutIntervals } from '#core/time.ts'
import { recurrencesOf } from './recurrence.ts'
import type { BusyTime, HoursRule } from './types.ts'
import { knownZone, minuteOfWallMs, wallMsAt, wallMsOf } from './zone.ts'

const MS_PER_MIN = 60_000
const MIN_PER_DAY = 1_440

/**
 * Hours that come back, less the times that are taken, as minutes. On the nights of a clock change a start that the wall
 * skips moves on by the gap and one shown twice is the first (see `minuteAt`); lengths are elapsed time. Here hours part from
 * RFC 5545, 3.3.10, which would leave out a skipped start: nobody loses a day's session to a skipped midnight. A day both
 * left out and added is left out.
 * @param zone IANA name of the studio's zone
 * @param fromMin, toMin the span asked for; what reaches over its ends is cut there. `toMin` after `fromMin`
 * @returns disjoint, rising, within the span
 * @throws Refusal for a zone, rule, day or time that does not exist, or an end that is not after its start
 * @see RFC 5545, 3.8.5 (EXDATE, RDATE, RRULE)
 */
export function intervalsOf(
  rules: readonly HoursRule[],
  busy: readonly BusyTime[],
  zone: string,
  fromMin: Minute,
  toMin: Minute,
): Interval[] {
  const known = knownZone(zone)
  assertSpan(fromMin, toMin)
  const open = rules.flatMap((rule) => hoursOf(rule, known, fromMin, toMin))
  const taken = busy.map((time) => busyIntervalOf(time, known))
  return intersectionOf(withoutIntervals(open, taken.filter(isSome)), [{ startMin: fromMin, endMin: toMin }])
}

/** A price that holds in hours that come back. */
export type PriceBand = { readonly pricePerKwh: number; readonly hours: readonly HoursRule[] }

/**
 * A tariff by the clock, as `firingCost` takes it. Where bands overlap the first one holds.
 * @throws Refusal as `intervalsOf`
 */
export function tariffOf(
  basePricePerKwh: number,
  bands: readonly PriceBand[],
  zone: string,
  fromMin: Minute,
  toMin: Minute,
): Tariff {
  let priced: Interval[] = []
  const spans = bands.flatMap(({ pricePerKwh, hours }) => {
    const own = withoutIntervals(intervalsOf(hours, [], zone, fromMin, toMin), priced)
    priced = unionOf([...priced, ...own])
    return own.map((span) => ({ ...span, pricePerKwh }))
  })
  return { basePricePerKwh, spans }
}

/** Hours of one rule that reach into the span, neither joined nor cut. */
function hoursOf(rule: HoursRule, zone: IANAZone, fromMin: Minute, toMin: Minute): Interval[] {
  if (!(rule.durationMin > 0)) throw endsBeforeStart(`The hours from ${rule.startTime} on`, 'durationMin')
  const startMs = wallMsOf(`${rule.startDate}T${rule.startTime}`)
  const span = {
    // A day more on either side, since a wall may have moved meanwhile.
    fromMs: wallMsAt(Math.floor(fromMin - rule.durationMin - MIN_PER_DAY), zone),
    toMs: wallMsAt(Math.ceil(toMin + MIN_PER_DAY), zone),
  }
  const onDay = (date: string): number => wallMsOf(`${date}T${rule.startTime}`)
  const leftOut = new Set(rule.exceptDates.map(onDay))
  const wallOfUtc = (utcMs: number): number => wallMsAt(Math.floor(utcMs / MS_PER_MIN), zone)
  const starts = [...recurrencesOf(rule.rrule, startMs, span, wallOfUtc), ...rule.extraDates.map(onDay)]
  return starts
    .filter((wallMs) => !leftOut.has(wallMs))
    .map((wallMs) => minuteOfWallMs(wallMs, zone))
    .map((startMin) => ({ startMin, endMin: startMin + rule.durationMin }))
    .filter(({ startMin, endMin }) => startMin < toMin && endMin > fromMin)
}

function busyIntervalOf({ start, end }: BusyTime, zone: IANAZone): Interval {
  const startMs = wallMsOf(start)
  const endMs = wallMsOf(end)
  if (endMs <= startMs) throw endsBeforeStart(`The busy time from ${start.replace('T', ' ')}`, 'end')
  return { startMin: minuteOfWallMs(startMs, zone), endMin: minuteOfWallMs(endMs, zone) }
}

/** A busy time between two clock changes may be nothing: 02:00 to 02:30 on a night that goes from 02:00 to 03:00. */
const isSome = ({ startMin, endMin }: Interval): boolean => endMin > startMin

function assertSpan(fromMin: Minute, toMin: Minute): void {
  if (!(toMin > fromMin)) throw endsBeforeStart('The span asked for', 'toMin')
}

const endsBeforeStart = (what: string, path: string): Refusal =>
  new Refusal('invalid', `${what} must end after it starts.`, [{ path, message: 'must be after the start' }])
