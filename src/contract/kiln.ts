/** Kilns, their furniture, and the power they share. */
import { z } from 'zod'
import type { PostSection, ShelfShare } from '#core/loading/types.ts'
import { id, kindsOf, listOf, oneOf, quantity, record, whole, words, yesNo } from './fields.ts'
import { firingKinds } from './firingSchedule.ts'
import type { Frozen } from './frozen.ts'

export const supplyRecord = record('a power supply', {
  id: id('The id of the supply'),
  name: words('The name of the supply'),
  kilnsAtOnce: whole('The kilns that may run at once', '', 1, 50),
})

const diameter = (what: string) => quantity(`The diameter of ${what}`, 'mm', 50, 5_000)
const length = (what: string) => quantity(`The length of ${what}`, 'mm', 50, 5_000)
const width = (what: string) => quantity(`The width of ${what}`, 'mm', 50, 5_000)
const sides = whole('The number of sides', '', 5, 24)
const acrossFlats = (what: string) => quantity(`The size of ${what} across its flats`, 'mm', 50, 5_000)

const chamberKinds = ['round', 'oval', 'many-sided', 'rectangular'] as const
const chamberShape = kindsOf('The shape of a chamber', 'kind', chamberKinds, [
  record('a round chamber', { kind: z.literal('round'), diameterMm: diameter('the chamber') }),
  record('an oval chamber', {
    kind: z.literal('oval'),
    lengthMm: length('the chamber'),
    widthMm: width('the chamber'),
  }),
  record('a many-sided chamber', { kind: z.literal('many-sided'), sides, acrossFlatsMm: acrossFlats('the chamber') }),
  record('a rectangular chamber', {
    kind: z.literal('rectangular'),
    lengthMm: length('the chamber'),
    widthMm: width('the chamber'),
  }),
])

const keepOut = record('a place to keep clear', {
  name: words('The name of a place to keep clear'),
  xMm: quantity('x', 'mm', -3_000, 3_000),
  yMm: quantity('y', 'mm', -3_000, 3_000),
  radiusMm: quantity('The radius of a place to keep clear', 'mm', 0, 1_000),
  fromZMm: quantity('The foot of a place to keep clear', 'mm', 0, 5_000),
  toZMm: quantity('The top of a place to keep clear', 'mm', 0, 5_000),
})

const share = oneOf('The share of a shelf', [
  'full',
  'half',
  'third',
  'quarter',
] as const satisfies readonly ShelfShare[])
const shelfKinds = ['round', 'many-sided', 'rectangular'] as const
const shelfShape = kindsOf('The shape of a shelf', 'kind', shelfKinds, [
  record('a round shelf', { kind: z.literal('round'), diameterMm: diameter('the shelf'), share }),
  record('a many-sided shelf', {
    kind: z.literal('many-sided'),
    sides,
    acrossFlatsMm: acrossFlats('the shelf'),
    share,
  }),
  record('a rectangular shelf', {
    kind: z.literal('rectangular'),
    lengthMm: length('the shelf'),
    widthMm: width('the shelf'),
    share,
  }),
])

const shelf = record('a kind of shelf', {
  id: id('The id of the shelf'),
  shape: shelfShape,
  thicknessMm: quantity('The thickness of a shelf', 'mm', 3, 80),
  massKg: quantity('The mass of a shelf', 'kg', 0.05, 100),
  count: whole('The number of shelves', '', 0, 200),
  maxWareKg: z.exactOptional(quantity('The ware a shelf carries', 'kg', 0.1, 1_000)),
})

const sections = ['square', 'round', 'triangle'] as const satisfies readonly PostSection[]
const post = record('a kind of post', {
  id: id('The id of the post'),
  lengthMm: quantity('The length of a post', 'mm', 5, 1_000),
  section: oneOf('The section of a post', sections),
  sizeMm: quantity('The size of a post', 'mm', 10, 150),
  count: whole('The number of posts', '', 0, 500),
})

const gap = (what: string) => quantity(what, 'mm', 0, 200)
export const clearances = record('the clearances of a kiln', {
  glazeGapMm: gap('The gap between glazed pieces'),
  bisqueGapMm: gap('The gap between pieces in a bisque load'),
  wallMm: gap('The gap to the wall'),
  postMm: gap('The gap to a post'),
  headspaceMm: gap('The gap under the next shelf'),
  lidMm: gap('The gap under the lid'),
  keepOutMm: gap('The gap around a place to keep clear'),
  nestMm: gap('The gap around a nested piece'),
  postInsetMm: gap('The inset of posts'),
})

export const kilnSpace = record('the room of a kiln', {
  chamber: record('the chamber', {
    shape: chamberShape,
    heightMm: quantity('The height of the chamber', 'mm', 50, 5_000),
    keepOuts: listOf('places to keep clear', keepOut, 0, 50),
  }),
  furniture: record('the furniture', {
    shelves: listOf('shelves', shelf, 0, 50),
    posts: listOf('posts', post, 0, 50),
  }),
  clearances,
  maxWareKg: z.exactOptional(quantity('The ware the kiln takes', 'kg', 0.1, 10_000)),
})

export const kilnFiring = record('the firing of a kiln', {
  powerKw: quantity('The power of the kiln', 'kW', 0.5, 500),
  maxTempC: quantity('The top temperature of the kiln', '°C', 600, 1_450),
  ambientC: quantity('The air around the kiln', '°C', -20, 50),
  coolingTauH: quantity('The time constant of cooling', 'hours', 0.5, 200),
  ventedTauH: quantity('The time constant of vented cooling', 'hours', 0.5, 200),
  coolsVented: yesNo('Whether the vent runs while the kiln cools'),
  brickKg: quantity('The mass of brick', 'kg', 0, 50_000),
  wallLossWPerK: quantity('The loss through the walls', 'W/K', 0, 500),
  lossFactor: quantity('The factor for other losses', '', 1, 3),
  switchUpsMin: listOf(
    'times to turn the kiln up',
    whole('A time to turn the kiln up', 'minutes from the start', 0, 4_320),
    0,
    20,
  ),
  readingOffsetC: quantity('The offset of readings', '°C', -100, 100),
})

export const kilnRecord = record('a kiln', {
  id: id('The id of the kiln'),
  name: words('The name of the kiln'),
  supplyId: id('The supply of the kiln'),
  space: kilnSpace,
  firing: kilnFiring,
  fires: listOf('kinds of firing', oneOf('A kind of firing', firingKinds), 0, 2),
  loadMin: whole('The time to load the kiln', 'minutes', 0, 600),
  unloadMin: whole('The time to unload the kiln', 'minutes', 0, 600),
})

export type SupplyRecord = Frozen<z.infer<typeof supplyRecord>>
export type KilnRecord = Frozen<z.infer<typeof kilnRecord>>
