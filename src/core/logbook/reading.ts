/** How each kind of entry is understood: one line a kind. */
import type { Books, Reading } from './books.ts'
import { asking, isCount } from './books.ts'
import { readBegun, readCut, readSplit, readStep, readTrued } from './claySteps.ts'
import type { Entry, EntryKind, EntryOf } from './entry.ts'
import { readCone, readFired, readLoaded, readMeter, readOpened, readTemperature, readUnloaded } from './kilns.ts'
import { readDelivered, readFinished, readGlazed, readLost, readSecond } from './outOfTheKiln.ts'
import {
  readCovered,
  readDampened,
  readFelt,
  readMoved,
  readRuled,
  readScrapDried,
  readTurned,
  readWeighed,
} from './waitingWare.ts'

type Readers = { readonly [Kind in EntryKind]: (books: Books, entry: EntryOf<Kind>) => Reading }

const readers: Readers = {
  'studio-edited': () => ({ asks: [], write: () => undefined }),
  received: (books, { body, happenedMin }) => ({
    asks: [],
    write: () => void books.received.push({ ...body, minute: happenedMin }),
  }),
  begun: readBegun,
  cut: readCut,
  trued: readTrued,
  moved: readMoved,
  covered: readCovered,
  turned: readTurned,
  dampened: readDampened,
  weighed: readWeighed,
  felt: readFelt,
  'scrap-dried': readScrapDried,
  ruled: readRuled,
  joined: readStep,
  refined: readStep,
  decorated: readStep,
  split: readSplit,
  second: readSecond,
  lost: readLost,
  loaded: readLoaded,
  fired: readFired,
  'temperature-read': readTemperature,
  'cone-read': readCone,
  'meter-read': readMeter,
  opened: readOpened,
  unloaded: readUnloaded,
  glazed: readGlazed,
  finished: readFinished,
  delivered: readDelivered,
  away: (books, { body: { makerId, fromMin, toMin } }) => ({
    asks: [],
    write: () => void (toMin > fromMin && books.away.push({ makerId, startMin: fromMin, endMin: toMin })),
  }),
  // Corrections have done their work before entries are read.
  corrected: () => ({ asks: [], write: () => undefined }),
}

export function readEntry(books: Books, entry: Entry): Reading {
  const { body } = entry
  if ('count' in body && !isCount(body.count)) return asking('count-does-not-add-up', { count: body.count })
  // The table pairs each kind with the reader of its own body, which the type of one lookup cannot say.
  const read = readers[entry.kind] as (books: Books, entry: Entry) => Reading
  return read(books, entry)
}
