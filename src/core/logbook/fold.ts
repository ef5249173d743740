/** From entries to state. */
import type { Design, StockItem, Studio } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Asked, Books, FiringDraft, Reading, RunDraft } from './books.ts'
import { openBooks } from './books.ts'
import type { Entry, EntryKind } from './entry.ts'
import { unsorted } from './kilns.ts'
import { readEntry } from './reading.ts'
import { standingEntries } from './standing.ts'
import type { FiringState, LogState, Question, RunState, ShelfCount } from './state.ts'

/** However rough a time is said to be, an entry is not looked for further from it than this. */
const MOST_ROUGH_MIN = MIN_PER_DAY

/** The studio's state by its logbook: `foldLog` with the studio's designs, and its stock as the opening shelf. */
export const logStateOf = (studio: Pick<Studio, 'designs' | 'stock'>, entries: readonly Entry[]): LogState =>
  foldLog(entries, new Map(studio.designs.map((design) => [design.id, design])), studio.stock)

/**
 * What the logbook says stands where. The same entries give the same state in whatever order they came: they are read in
 * the order in which they happened. Nothing is refused: an entry that does not fit leaves a question.
 *
 * - **Parts of runs.** An entry about fewer pieces than its run has parts it: the pieces worked, loaded or sorted go on as
 *   run `childRunId(run, entry)`, the rest keeps the id. An entry that names a run means that run's pieces which fit it, or
 *   else those that have come out of it since: a device that has not heard of the parting need not know.
 * - **Rough times.** An entry that does not fit waits for those that, by their own roughness, may have come before it
 *   (a joining at eleven for a cut "this morning"), and is asked about only if it fits after none of them.
 * - **Corrections** void an entry as if it had never been; a correction of a correction brings it back.
 *
 * @param openingStock what stood on the shelf when the logbook began; `LogState.shelf` has it in
 */
export function foldLog(
  entries: readonly Entry[],
  designs: ReadonlyMap<string, Design>,
  openingStock: readonly StockItem[] = [],
): LogState {
  const standing = standingEntries(entries)
  const books = openBooks(designs, openingStock)
  const questions = [...standing.questions, ...readAll(books, standing.entries), ...unsortedLoads(books)]
  return {
    runs: [...books.runs.values()].map(runState).toSorted(byId),
    firings: [...books.firings.values()].map(firingState).toSorted(byId),
    shelf: [...books.shelf.values()].filter(({ count }) => count > 0).toSorted(byDesign),
    delivered: books.delivered,
    received: books.received,
    cut: books.cut,
    scraps: books.scraps,
    away: books.away,
    losses: books.losses,
    questions,
    voided: standing.voided,
  }
}

/** Kinds that tell of ware but bring it nowhere: no other entry fits better for them. */
const bystanders: ReadonlySet<EntryKind> = new Set<EntryKind>([
  'moved',
  'covered',
  'turned',
  'dampened',
  'weighed',
  'felt',
  'ruled',
  'trued',
  'scrap-dried',
  'temperature-read',
  'cone-read',
  'meter-read',
  'opened',
  'received',
  'away',
  'studio-edited',
])

function readAll(books: Books, entries: readonly Entry[]): Question[] {
  const questions: Question[] = []
  const soonestFrom = soonestOfRest(entries)
  let waiting: Entry[] = []
  const settle = (entry: Entry, { asks, write }: Reading) => {
    write()
    questions.push(...asks.map((asked) => questionOf(entry.id, asked)))
  }
  /** Whether something read after entry `index` may have happened before this one. */
  const mayFitLater = (entry: Entry, index: number): boolean =>
    soonestFrom[index + 1]! <= entry.happenedMin + roughnessOf(entry)
  for (const [index, entry] of entries.entries()) {
    const reading = readEntry(books, entry)
    if (reading.asks.length > 0 && mayFitLater(entry, index)) waiting.push(entry)
    else {
      settle(entry, reading)
      if (!bystanders.has(entry.kind)) waiting = settleFitting(books, waiting, settle)
    }
    if (waiting.length === 0) continue
    const [still, over] = partedBy(waiting, (one) => mayFitLater(one, index))
    for (const one of over) settle(one, readEntry(books, one))
    waiting = over.length > 0 ? settleFitting(books, still, settle) : still
  }
  return questions
}

/** Settles what fits by now, in order, again and again: one may make the next fit. @returns what still does not */
function settleFitting(
  books: Books,
  waiting: readonly Entry[],
  settle: (entry: Entry, reading: Reading) => void,
): Entry[] {
  const left = [...waiting]
  for (let next = 0; next < left.length;) {
    const reading = readEntry(books, left[next]!)
    if (reading.asks.length > 0) next++
    else {
      settle(left.splice(next, 1)[0]!, reading)
      next = 0
    }
  }
  return left
}

/** [index]: the soonest that this entry or any after it may have happened; one more at the end, never. */
function soonestOfRest(entries: readonly Entry[]): readonly Minute[] {
  const soonest: Minute[] = Array.from({ length: entries.length + 1 }, () => Number.POSITIVE_INFINITY)
  for (let index = entries.length - 1; index >= 0; index--) {
    const entry = entries[index]!
    soonest[index] = Math.min(soonest[index + 1]!, entry.happenedMin - roughnessOf(entry))
  }
  return soonest
}

const roughnessOf = ({ roughMin }: Entry): number => Math.min(Math.max(roughMin, 0), MOST_ROUGH_MIN)

function partedBy<T>(items: readonly T[], holds: (item: T) => boolean): readonly [T[], T[]] {
  return [items.filter(holds), items.filter((item) => !holds(item))]
}

function unsortedLoads(books: Books): Question[] {
  return [...books.firings.values()].flatMap((firing): Question[] => {
    const { count, entryId } = unsorted(firing)
    // Without an entry the question was asked when the kiln was loaded again.
    if (count === 0 || entryId === null) return []
    return [{ entryId, code: 'count-does-not-add-up', params: { firing: firing.id, count, there: 0 } }]
  })
}

const questionOf = (entryId: string, { code, params }: Asked): Question => ({ entryId, code, params })

const runState = ({ children: _children, cutHint: _cutHint, ...run }: RunDraft): RunState => run
const firingState = ({ runs: _runs, lastUnloadId: _lastUnloadId, ...firing }: FiringDraft): FiringState => firing

const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0

function byDesign(a: ShelfCount, b: ShelfCount): number {
  const [keyA, keyB] = [a, b].map(({ designId, stage, glazeId }) => `${designId} ${stage} ${glazeId ?? ''}`) as [
    string,
    string,
  ]
  return keyA < keyB ? -1 : 1
}
