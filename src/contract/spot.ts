/** Where ware waits, and how its air is known. */
import { z } from 'zod'
import type { AirWord } from '#core/air/types.ts'
import type { BoardKind } from '#core/drying/types.ts'
import { id, kindsOf, oneOf, quantity, record, share, whole, words } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { instant } from './time.ts'

export const boardKinds = ['sealed', 'rack', 'absorbent', 'standing'] as const satisfies readonly BoardKind[]
export const airWords = ['dry', 'normal', 'damp'] as const satisfies readonly AirWord[]

const airWord = oneOf('The air in one word', airWords)

/**
 * `log`: its own readings, and the word until there are some. `outdoors`: its readings are of the weather outside, which
 * is brought to room temperature. `word`: nobody measures.
 */
export const spotAir = kindsOf(
  'The air of a spot',
  'kind',
  ['log', 'outdoors', 'word'],
  [
    record('the air of a spot', { kind: z.literal('log'), word: airWord }),
    record('the air of a spot', {
      kind: z.literal('outdoors'),
      setPointC: quantity('The set point of the heating', '°C', 5, 35),
    }),
    record('the air of a spot', { kind: z.literal('word'), word: airWord }),
  ],
)

export const spotRecord = record('a spot', {
  id: id('The id of the spot'),
  name: words('The name of the spot'),
  boardCount: whole('The room of a spot', 'ware boards', 0, 1_000),
  board: oneOf('What ware lies on', boardKinds),
  airSpeedMS: quantity('The speed of the air', 'm/s', 0, 5),
  air: spotAir,
})

/** One line of an air log: what a sensor or a person read at a spot. */
export const airReadingRecord = record('a reading of the air', {
  spotId: id('The spot of the reading'),
  at: instant('The time of the reading'),
  tempC: quantity('Temperature', '°C', -40, 60),
  rh: share('Relative humidity'),
})

export type SpotRecord = Frozen<z.infer<typeof spotRecord>>
export type AirReadingRecord = Frozen<z.infer<typeof airReadingRecord>>
