import { intervalsOf } from '#app/calendar/hours.ts'
import type { HoursRule } from '#app/calendar/types.ts'
import { dayAt, isoAt, minuteAt, minuteOfWall, wallAt } from '#app/calendar/zone.ts'
import { clockChanges } from '../../golden/calendar/clockChanges.ts'
import { rfcExamples, rfcTime, rfcZone } from '../../golden/calendar/rfc5545.ts'

export const hoursOf = (rrule: string, startDate: string, but: Partial<HoursRule> = {}): HoursRule => ({
  rrule,
  startDate,
  startTime: rfcTime,
  durationMin: 60,
  exceptDates: [],
  extraDates: [],
  ...but,
})

/** The days on which a rule of hours comes round, from its start until the end of a day. */
export function daysOf(hours: HoursRule, lastDay: string): string[] {
  const fromMin = minuteAt(hours.startDate, '00:00', rfcZone)
  const intervals = intervalsOf([hours], [], rfcZone, fromMin, minuteAt(lastDay, '23:59', rfcZone))
  return intervals.map(({ startMin }) => dayAt(startMin, rfcZone))
}

/** All that the calendar says of the golden examples: the same in every process, whatever its own zone. */
export const everyExample = () => ({
  rules: rfcExamples.map(({ rrule, start }) => daysOf(hoursOf(rrule, start), '2008-12-31')),
  nights: clockChanges.map(({ wall, zone }) => {
    const minute = minuteOfWall(wall, zone)
    return [minute, wallAt(minute, zone), isoAt(minute, zone)]
  }),
})
