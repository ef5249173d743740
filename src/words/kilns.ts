/** Firing schedules, what firing does to ware, witness cones and loads, as sentences. */
import type { FiringEventCode, FiringSchedule, FiringSegment } from '#core/firing/types.ts'
import type { Reason } from '#core/loading/types.ts'
import type { ConeBend } from '#core/logbook/entry.ts'
import { deltaTemperatureText, lengthText, massText, temperatureText } from './amounts.ts'
import type { Units } from './context.ts'
import { durationText } from './times.ts'

export const firingEventTexts: Readonly<Record<FiringEventCode, string>> = {
  steam: 'steam leaves',
  'burn-out': 'what burns in the clay burns out',
  dehydroxylation: 'the water bound in the clay leaves',
  'quartz-inversion': 'quartz changes size',
  'carbonate-decomposition': 'carbonates fall apart',
  sintering: 'grains begin to hold together',
  vitrification: 'glass forms',
  'cristobalite-inversion': 'cristobalite changes size',
  'safe-to-open': 'it may be opened',
}

export const coneBendTexts: Readonly<Record<ConeBend, string>> = {
  standing: 'still standing',
  soft: 'bending',
  down: 'down',
  flat: 'flat',
}

/** "100 °C an hour to 600 °C, then 15 min held": every ramp and hold, heating and then cooling. */
export const scheduleTexts = ({ segments, coolingSegments = [] }: FiringSchedule, units: Units): string[] => [
  ...segments.map((segment) => `Up ${segmentText(segment, units)}`),
  ...coolingSegments.map((segment) => `Down ${segmentText(segment, units)}`),
]

function segmentText({ rateCPerH, targetC, holdMin }: FiringSegment, units: Units): string {
  const degrees = units === 'metric' ? '°C' : '°F'
  const hold = holdMin > 0 ? `, then ${durationText(holdMin)} held` : ''
  return `${deltaTemperatureText(rateCPerH, units)} ${degrees} an hour to ${temperatureText(targetC, units)}${hold}`
}

type Say = (params: Reason['params'], units: Units) => string
const length = (value: string | number | undefined, units: Units): string => lengthText(Number(value), units)

/** Why a piece is not in a load. The packer's reasons are open, so one that is not here has a sentence of its own. */
const leftOutSentences: Readonly<Record<string, Say>> = {
  'no-room': () => 'there is no room left for it',
  'no-shelves': () => 'the kiln has no shelves',
  'no-posts': () => 'the kiln has too few posts',
  'not-tried': () => 'there are more pieces than are tried in one load',
  'piece-size-invalid': () => 'its size cannot be right',
  'piece-too-tall': (p, units) =>
    `it is ${length(p['heightMm'], units)} high, and there is room for ${length(p['roomMm'], units)}`,
  'piece-too-wide': () => 'it is too wide for every shelf',
  'firing-range': (p, units) =>
    `it is fired to between ${temperatureText(Number(p['lowC']), units)} and ${temperatureText(Number(p['highC']), units)}, and the load goes to ${temperatureText(Number(p['peakC']), units)}`,
  'firing-ranges-apart': () => 'not all pieces suit one heat',
  'too-heavy': (p, units) => `the kiln carries ${massText(Number(p['maxWareKg']), units)} only`,
  'too-many-wide-pieces': () => 'there are too many wide pieces for the height of the kiln',
  'too-much-ware': () => 'there is more ware than shelf',
  'group-left-out': () => 'something that belongs with it does not go in',
  'pot-left-out': () => 'its pot does not go in',
}

export const leftOutText = ({ code, params }: Reason, units: Units): string =>
  leftOutSentences[code]?.(params, units) ?? 'it found no place'
