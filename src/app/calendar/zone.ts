import { DateTime, IANAZone } from 'luxon'
import { Refusal } from '#app/refusal.ts'
import type { Minute } from '#core/time.ts'

const MS_PER_MIN = 60_000
const MIN_PER_DAY = 1_440

/**
 * The minute at which the studio's wall shows a date and time. When clocks go forward, a time that the wall skips is
 * read with the offset before the gap (02:30 becomes 03:30); when they go back, a time shown twice is the first.
 * @param date YYYY-MM-DD
 * @param time HH:MM
 * @param zone IANA name, e.g. Europe/London
 * @throws Refusal for a day, time or zone that does not exist
 * @see RFC 5545, 3.3.5 (form 3), for both nights
 */
export function minuteAt(date: string, time: string, zone: string): Minute {
  return minuteOfWallMs(wallMsOf(`${date}T${time}`), knownZone(zone))
}

/** The same for one text, YYYY-MM-DDTHH:MM. */
export const minuteOfWall = (wall: string, zone: string): Minute => minuteOfWallMs(wallMsOf(wall), knownZone(zone))

/** What the studio's wall shows at a minute, YYYY-MM-DDTHH:MM. @throws Refusal for an unknown zone */
export const wallAt = (minute: Minute, zone: string): string => textOfWallMs(wallMsAt(minute, knownZone(zone)))

/** The studio's day at a minute, YYYY-MM-DD. @throws Refusal for an unknown zone */
export const dayAt = (minute: Minute, zone: string): string => wallAt(minute, zone).slice(0, 10)

/** A minute as ISO 8601 with the offset that the zone has then: 2026-07-01T09:30:00+01:00. @throws Refusal for an unknown zone */
export const isoAt = (minute: Minute, zone: string): string =>
  DateTime.fromMillis(minute * MS_PER_MIN, { zone: knownZone(zone) }).toISO({ suppressMilliseconds: true })!

/** The zone by its IANA name. Bare offsets are no zones here: they know no change of clocks. @throws Refusal */
export function knownZone(zone: string): IANAZone {
  const known = knownZones.get(zone)
  if (known) return known
  if (!/^[A-Za-z]/.test(zone) || !IANAZone.isValidZone(zone)) {
    throw new Refusal(
      'invalid',
      `There is no time zone called “${zone}”. Choose one by its place, such as Europe/London.`,
      [{ path: 'zone', message: 'must be the name of a time zone such as Europe/London' }],
    )
  }
  const found = IANAZone.create(zone)
  knownZones.set(zone, found)
  return found
}

/** To ask whether a zone exists takes a tenth of a millisecond, and an air log asks for every row. There are some 600 zones. */
const knownZones = new Map<string, IANAZone>()

/** Wall clock times are handled as if the wall were in UTC: plain numbers that no process's own zone can touch. */
export function wallMsOf(wall: string): number {
  const wallMs = Date.parse(`${wall}:00.000Z`)
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(wall) || Number.isNaN(wallMs) || textOfWallMs(wallMs) !== wall) {
    const [date, time] = wall.split('T')
    throw new Refusal(
      'invalid',
      `There is no “${date} ${time ?? ''}”. Write a day and time such as 2026-03-02 and 09:30.`,
    )
  }
  return wallMs
}

export const textOfWallMs = (wallMs: number): string => new Date(wallMs).toISOString().slice(0, 16)

export const wallMsAt = (minute: Minute, zone: IANAZone): number => (minute + offsetMin(minute, zone)) * MS_PER_MIN

export function minuteOfWallMs(wallMs: number, zone: IANAZone): Minute {
  const wallMin = wallMs / MS_PER_MIN
  const midnight = Math.floor(wallMin / MIN_PER_DAY) * MIN_PER_DAY
  // Two clock changes are never within four days of each other, so one offset lies before the change and one after.
  const before = midnightOffsetMin(midnight - MIN_PER_DAY, zone)
  const after = midnightOffsetMin(midnight + 2 * MIN_PER_DAY, zone)
  if (before === after) return wallMin - before
  const readings = [wallMin - before, wallMin - after].filter((minute) => minute + offsetMin(minute, zone) === wallMin)
  return readings.length > 0 ? Math.min(...readings) : wallMin - before
}

/** Offset east of UTC, whole minutes; before about 1970 zones had seconds, which are dropped. */
const offsetMin = (minute: Minute, zone: IANAZone): number => Math.round(zone.offset(minute * MS_PER_MIN))

/** Remembered, since the library takes some ten microseconds, and the hours of all makers ask for the same midnights. */
function midnightOffsetMin(minute: Minute, zone: IANAZone): number {
  const key = `${minute} ${zone.name}`
  const known = knownOffsets.get(key)
  if (known !== undefined) return known
  const offset = offsetMin(minute, zone)
  if (knownOffsets.size >= MOST_KNOWN) knownOffsets.clear()
  knownOffsets.set(key, offset)
  return offset
}

const knownOffsets = new Map<string, number>()
const MOST_KNOWN = 20_000
