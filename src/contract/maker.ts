/** Who makes, when they are there, and when not. */
import type { z } from 'zod'
import { handWorks } from '#core/studio/studio.ts'
import { id, listOf, oneOf, record, whole, words } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { recurrence } from './recurrence.ts'
import { day, timeOfDay, wallMoment } from './time.ts'

export const makerRecord = record('a maker', {
  id: id('The id of the maker'),
  name: words('The name of the maker'),
  skills: listOf('kinds of work', oneOf('A kind of work', handWorks), 0, handWorks.length),
})

/** Making: hands on clay. Look-in: two to five minutes to feel, open or close. Kiln watch: at home and awake. */
export const hoursPurposes = ['making', 'look-in', 'kiln-watch'] as const

/** Hours that come back, on the wall of the studio. `startDate` with `startTime` is the rule's DTSTART. */
export const hoursRecord = record('hours that come back', {
  id: id('The id of the hours'),
  makerId: id('The maker of the hours'),
  purpose: oneOf('The purpose of the hours', hoursPurposes),
  rrule: recurrence('The rule by which the hours come back'),
  startDate: day('The first day of the hours'),
  startTime: timeOfDay('The time at which the hours begin'),
  durationMin: whole('The length of the hours', 'minutes', 1, 1_440),
  exceptDates: listOf('days left out', day('A day left out'), 0, 2_000),
  extraDates: listOf('days added', day('A day added'), 0, 2_000),
})

/** A time that is taken, once: whatever hours the maker has, none of them count then. */
export const busyTimeRecord = record('a busy time', {
  id: id('The id of the busy time'),
  makerId: id('The maker of the busy time'),
  start: wallMoment('The start of the busy time'),
  end: wallMoment('The end of the busy time'),
}).refine(({ start, end }) => start < end, {
  path: ['end'],
  error: 'A busy time must end after it starts',
})

export type MakerRecord = Frozen<z.infer<typeof makerRecord>>
export type HoursRecord = Frozen<z.infer<typeof hoursRecord>>
export type HoursPurpose = (typeof hoursPurposes)[number]
export type BusyTimeRecord = Frozen<z.infer<typeof busyTimeRecord>>
