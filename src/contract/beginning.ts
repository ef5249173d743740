/** The questions with which one's own studio begins. What is not asked is set to what is usual, and can be amended. */
import type { z } from 'zod'
import { builds } from '#core/studio/plainDesign.ts'
import { kilnSizes } from '#core/studio/usualKilns.ts'
import { listOf, oneOf, quantity, record, whole, words } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { airWords } from './spot.ts'
import { day, timeOfDay, zone } from './time.ts'

/** Days of the week as RFC 5545 spells them. */
export const weekdays = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'] as const

/** Cones to which the glaze is fired, for which there is a schedule to start from. */
export const glazeCones = ['6', '10'] as const

const daily = (what: string) =>
  record(what, { from: timeOfDay(`The begin of ${what}`), to: timeOfDay(`The end of ${what}`) }).refine(
    ({ from, to }) => from < to,
    { path: ['to'], error: `The end of ${what} must be later than its begin` },
  )

export const plainPiece = record('a piece', {
  name: words('The name of the piece'),
  build: oneOf('How the piece is built', builds),
  lengthMm: quantity('Length', 'mm', 20, 1_000),
  widthMm: quantity('Width', 'mm', 20, 1_000),
  heightMm: quantity('Height', 'mm', 3, 1_000),
  thicknessMm: quantity('The thickness of the slab', 'mm', 3, 20),
  cutMin: quantity('The time to roll and cut a piece', 'minutes', 0.5, 240),
  buildMin: quantity('The time to build a piece', 'minutes', 0.5, 240),
  finishMin: quantity('The time to glaze and finish a piece', 'minutes', 0.5, 240),
})

export const beginning = record('the beginning of a studio', {
  studioName: words('The name of the studio'),
  makerName: words('The name of the maker'),
  zone: zone('The time zone'),
  makingDays: listOf('days of making', oneOf('A day of making', weekdays), 1, 7),
  making: daily('making hours'),
  lookIns: daily('look-ins'),
  kilnWatch: daily('kiln watch'),
  air: oneOf('The air of the studio in one word', airWords),
  clayKg: quantity('The clay on hand', 'kg', 0, 100_000),
  kiln: oneOf('The size of the kiln', kilnSizes),
  glazeCone: oneOf('The cone of the glaze firing', glazeCones),
  piece: plainPiece,
  order: record('the first order', {
    name: words('The name of the order'),
    count: whole('The number of pieces', '', 1, 1_000),
    dueDate: day('The day the order is due'),
  }),
})

export type Beginning = Frozen<z.infer<typeof beginning>>
