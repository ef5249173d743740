/** Two makers of the example: one with a teaching job and children, one who comes in. */
import type { BusyTimeRecord, HoursPurpose, HoursRecord, MakerRecord } from '#contract/maker.ts'
import type { ExampleClock } from './clock.ts'

export const exampleMakers: readonly MakerRecord[] = [
  { id: 'ines', name: 'Ines', skills: ['slab', 'join', 'surface', 'glaze', 'kiln', 'finish'] },
  { id: 'rafe', name: 'Rafe', skills: ['slab', 'join', 'surface', 'kiln', 'finish'] },
]

/** Days as the recurrence rule spells them, begin and length. Ines teaches on Tuesdays and Thursdays. */
type Row = readonly [
  makerId: string,
  purpose: HoursPurpose,
  name: string,
  days: string,
  time: string,
  lengthMin: number,
]
const rows: readonly Row[] = [
  ['ines', 'making', 'school-hours', 'MO,WE,FR', '09:15', 330],
  ['ines', 'making', 'evening', 'TU,TH', '19:45', 105],
  ['ines', 'making', 'saturday', 'SA', '09:00', 240],
  ['ines', 'look-in', 'morning', 'MO,TU,WE,TH,FR,SA,SU', '07:00', 75],
  ['ines', 'look-in', 'noon', 'MO,WE,FR,SA,SU', '12:30', 60],
  ['ines', 'look-in', 'after-school', 'MO,TU,WE,TH,FR,SA,SU', '16:30', 60],
  ['ines', 'look-in', 'late', 'MO,TU,WE,TH,FR,SA,SU', '20:30', 105],
  ['ines', 'kiln-watch', 'at-home', 'MO,WE,FR,SA,SU', '06:30', 960],
  ['ines', 'kiln-watch', 'before-school', 'TU,TH', '06:30', 105],
  ['ines', 'kiln-watch', 'after-school', 'TU,TH', '16:30', 360],
  ['rafe', 'making', 'weekday', 'TU,TH,FR', '10:00', 360],
  ['rafe', 'making', 'sunday', 'SU', '14:00', 180],
]

const weekdays = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU']

/** A rule begins on a day that it names itself, some weeks before the example opens. */
export function exampleHours(clock: ExampleClock): HoursRecord[] {
  return rows.map(([makerId, purpose, name, days, startTime, durationMin]) => {
    const id = `${makerId}-${purpose}-${name}`
    return {
      id,
      makerId,
      purpose,
      rrule: `FREQ=WEEKLY;BYDAY=${days}`,
      startDate: clock.lastWeekday(weekdays.indexOf(days.slice(0, 2)) + 1, -35),
      startTime,
      durationMin,
      exceptDates: id === 'rafe-making-weekday' ? [clock.nextWeekday(4, 11)] : [],
      extraDates: id === 'rafe-making-weekday' ? [clock.nextWeekday(6, 13)] : [],
    }
  })
}

export function exampleBusyTimes(clock: ExampleClock): BusyTimeRecord[] {
  const friday = clock.nextWeekday(5, 3)
  const saturday = clock.nextWeekday(6, 17)
  return [
    { id: 'dentist', makerId: 'ines', start: `${friday}T11:00`, end: `${friday}T12:15` },
    { id: 'wedding', makerId: 'ines', start: `${saturday}T08:00`, end: `${saturday}T22:30` },
  ]
}
