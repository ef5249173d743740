/**
 * The books while the log is read: runs, firings and shelf that may still change. Only handlers write in them, and only
 * through what is here, so that no piece is ever made or lost on the way.
 */
import type { Design, StockItem } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { LoadMember, LossCause } from './entry.ts'
import type {
  FiringState,
  LogState,
  LossRecord,
  QuestionCode,
  RunStage,
  RunState,
  ShelfCount,
  Waiting,
} from './state.ts'

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] extends readonly (infer Item)[] ? Item[] : T[Key] }

/** `children` came out of it, in the order in which they did. `cutHint`: the planned step that its cut answered. */
export type RunDraft = Mutable<RunState> & { readonly children: RunDraft[]; cutHint: string | null }
/** `lastUnloadId`: the entry that last told of ware taken out. */
export type FiringDraft = Mutable<FiringState> & { readonly runs: RunDraft[]; lastUnloadId: string | null }
export type Pile = Mutable<ShelfCount>

type Lists = 'delivered' | 'received' | 'cut' | 'scraps' | 'away'

export type Books = {
  readonly designs: ReadonlyMap<string, Design>
  readonly runs: Map<string, RunDraft>
  readonly firings: Map<string, FiringDraft>
  /** By kiln, the firings that were loaded and never said to be out. */
  readonly loadedByKiln: Map<string, readonly FiringDraft[]>
  readonly shelf: Map<string, Pile>
  readonly losses: LossRecord[]
} & { readonly [List in Lists]: LogState[List][number][] }

/** What does not fit, before it is known which entry asks. */
export type Asked = { readonly code: QuestionCode; readonly params: Readonly<Record<string, string | number>> }

/**
 * An entry as understood against the books: what does not fit, and what to write. Reading writes nothing, so an entry that
 * does not fit yet can be laid aside and read again.
 */
export type Reading = { readonly asks: readonly Asked[]; readonly write: () => void }

export const asking = (code: QuestionCode, params: Asked['params']): Reading => ({
  asks: [{ code, params }],
  write: () => undefined,
})

export const openBooks = (designs: ReadonlyMap<string, Design>, stock: readonly StockItem[]): Books => {
  const books: Books = {
    designs,
    runs: new Map(),
    firings: new Map(),
    loadedByKiln: new Map(),
    shelf: new Map(),
    losses: [],
    delivered: [],
    received: [],
    cut: [],
    scraps: [],
    away: [],
  }
  for (const { designId, stage, glazeId, count } of stock)
    if (isCount(count)) putOnShelf(books, { designId, stage, glazeId, count })
  return books
}

/** A number of pieces that can be meant. */
export const isCount = (count: number): boolean => Number.isSafeInteger(count) && count > 0

export const inKiln = (stage: RunStage): boolean => stage === 'in bisque' || stage === 'in glaze'
/** Pieces exist: cut, and not all gone. */
export const isAlive = ({ stage, count }: RunDraft): boolean => stage !== 'begun' && count > 0

export function addRun(
  books: Books,
  run: Pick<RunState, 'id' | 'designId' | 'stage' | 'count'> & Partial<RunState>,
): RunDraft {
  const draft: RunDraft = {
    parentId: null,
    cutMin: null,
    cutRoughMin: 0,
    lastStepMin: null,
    truedMin: null,
    glazeId: null,
    glazedMin: null,
    firingId: null,
    ...run,
    doneStepIds: [...(run.doneStepIds ?? [])],
    waits: [...(run.waits ?? [])],
    felt: [...(run.felt ?? [])],
    weighed: [...(run.weighed ?? [])],
    ruled: [...(run.ruled ?? [])],
    dampenedMin: [...(run.dampenedMin ?? [])],
    children: [],
    cutHint: null,
  }
  books.runs.set(draft.id, draft)
  return draft
}

/**
 * The id of what entry `entryId` parts from run `runId`. It hangs on nothing else, so that a late entry never renames what
 * others have already been written about.
 */
export const childRunId = (runId: string, entryId: string): string => `${runId}/${entryId}`

/** `count` pieces of the run as a run: itself if that is all of it, else a child. `count` is 1 to `run.count`. */
export function partOf(books: Books, run: RunDraft, count: number, entryId: string, id?: string): RunDraft {
  if (count === run.count && id === undefined) return run
  const { children: _children, cutHint: _cutHint, ...history } = run
  const child = addRun(books, {
    ...history,
    id: id ?? freeId(books, childRunId(run.id, entryId)),
    parentId: run.id,
    count,
  })
  run.children.push(child)
  if (inKiln(run.stage) && run.firingId !== null) books.firings.get(run.firingId)?.runs.push(child)
  takeOff(run, count)
  return child
}

/** One entry may part a run twice (sorted good and refire), or a stranger may have taken the name. */
export function freeId(books: Books, wanted: string): string {
  let id = wanted
  while (books.runs.has(id)) id += '+'
  return id
}

/** `count` pieces leave the run. */
export function takeOff(run: RunDraft, count: number): void {
  run.count -= count
  if (run.count > 0) return
  run.stage = 'gone'
  run.firingId = null
}

export function loseFrom(books: Books, run: RunDraft, count: number, minute: Minute, cause: LossCause | null): void {
  if (count === 0) return
  books.losses.push({ minute, designId: run.designId, stage: run.stage, count, cause })
  takeOff(run, count)
}

const shelfKey = ({ designId, stage, glazeId }: Omit<ShelfCount, 'count'>): string =>
  JSON.stringify([designId, stage, glazeId])

export function putOnShelf(books: Books, { designId, stage, glazeId, count }: ShelfCount): void {
  if (count === 0) return
  const key = shelfKey({ designId, stage, glazeId })
  const pile = books.shelf.get(key)
  if (pile) pile.count += count
  else books.shelf.set(key, { designId, stage, glazeId, count })
}

/** From then on it waits so. Entries of one minute are one change; an entry that came late cannot turn time back. */
export function waitFrom(run: RunDraft, minute: Minute, change: Omit<Waiting, 'fromMin'>): void {
  const last = run.waits.at(-1)
  const fromMin = Math.max(minute, last?.fromMin ?? minute)
  if (last && last.fromMin === fromMin) run.waits[run.waits.length - 1] = { ...last, ...change }
  else run.waits.push({ fromMin, ...change })
}

export const memberOf = (run: RunDraft, count: number): LoadMember => ({
  runId: run.id,
  designId: run.designId,
  glazeId: run.glazeId,
  count,
})
