/** Into the kiln and out of it again. */
import type { Minute } from '#core/time.ts'
import type { Asked, Books, FiringDraft, Reading, RunDraft } from './books.ts'
import { addRun, asking, freeId, inKiln, isCount, loseFrom, memberOf, partOf, putOnShelf, takeOff } from './books.ts'
import { asksOf, clayStepIdsOf } from './claySteps.ts'
import type { EntryOf, LoadMember, SortedMember } from './entry.ts'
import { familyOf, takingFrom } from './taking.ts'
import type { Portions, Rank, Taking } from './taking.ts'

/**
 * What is loaded again is the same firing's second half, as long as it has not been lit. A kiln that is loaded while another
 * load is said to be in it must have been emptied: that load is taken as out, and asked about.
 */
export function readLoaded(books: Books, entry: EntryOf<'loaded'>): Reading {
  const { body } = entry
  const known = books.firings.get(body.firingId)
  if (known && !stillLoading(known, body)) return asking('made-twice', { firing: body.firingId })
  const loaded = books.loadedByKiln.get(body.kilnId) ?? []
  const before = loaded.filter(({ id, unloadedMin }) => id !== body.firingId && unloadedMin === null)
  const taking = takingFrom(books)
  const members = body.members.map((member) => readMember(books, taking, entry, member))
  return {
    asks: [
      ...before.map(({ id }): Asked => ({ code: 'kiln-already-loaded', params: { kiln: body.kilnId, firing: id } })),
      ...members.flatMap(({ asks }) => asks),
    ],
    write: () => {
      for (const firing of before) firing.unloadedMin = entry.happenedMin
      const firing = known ?? newFiring(entry)
      books.firings.set(firing.id, firing)
      books.loadedByKiln.set(body.kilnId, [firing])
      for (const { enter } of members) enter(firing)
    },
  }
}

export const readFired = (books: Books, { body, happenedMin }: EntryOf<'fired'>): Reading =>
  ofFiring(books, body.firingId, (firing) => {
    firing.firedMin ??= happenedMin
    firing.candleHours = body.candleHours
  })

export const readTemperature = (books: Books, { body, happenedMin }: EntryOf<'temperature-read'>): Reading =>
  ofFiring(books, body.firingId, ({ readings }) => void readings.push({ minute: happenedMin, tempC: body.tempC }))

export const readCone = (books: Books, { body, happenedMin }: EntryOf<'cone-read'>): Reading =>
  ofFiring(
    books,
    body.firingId,
    ({ cones }) => void cones.push({ minute: happenedMin, cone: body.cone, bend: body.bend }),
  )

export const readMeter = (books: Books, { body }: EntryOf<'meter-read'>): Reading =>
  ofFiring(books, body.firingId, (firing) => void (firing.energyKwh = body.energyKwh))

export const readOpened = (books: Books, { body, happenedMin }: EntryOf<'opened'>): Reading =>
  ofFiring(books, body.firingId, (firing) => void (firing.openedMin ??= happenedMin))

/** A load may be sorted in several entries, some today and some tomorrow; what is left in at the end is asked about. */
export function readUnloaded(books: Books, entry: EntryOf<'unloaded'>): Reading {
  const firing = books.firings.get(entry.body.firingId)
  if (!firing) return asking('unknown-firing', { firing: entry.body.firingId })
  const taking = takingFrom(books)
  const sorted = entry.body.sorted.map((member) => readSorted(books, taking, firing, member))
  return {
    asks: sorted.flatMap(({ asks }) => asks),
    write: () => {
      firing.unloadedMin = entry.happenedMin
      firing.lastUnloadId = entry.id
      for (const { member, found } of sorted) sortOut(books, entry, member, found)
    },
  }
}

const stillLoading = ({ kilnId, kind, firedMin, unloadedMin }: FiringDraft, body: EntryOf<'loaded'>['body']): boolean =>
  kilnId === body.kilnId && kind === body.firingKind && firedMin === null && unloadedMin === null

function readMember(books: Books, taking: Taking, { id, body, happenedMin }: EntryOf<'loaded'>, member: LoadMember) {
  if (!isCount(member.count)) {
    return {
      asks: [{ code: 'count-does-not-add-up', params: { count: member.count } } as const],
      enter: () => undefined,
    }
  }
  const glaze = body.firingKind === 'glaze'
  if (member.runId === null) return readFromShelf(books, taking, id, member, glaze)
  const run = books.runs.get(member.runId)
  if (!run) return { asks: [{ code: 'unknown-run', params: { run: member.runId } } as const], enter: () => undefined }
  const family = familyOf(run)
  const found = taking.fromRuns(family, member.count, glaze ? rankForGlaze(member) : rankForBisque)
  const early = found.portions.filter(({ rank }) => rank > 0)
  const asks: Asked[] = [
    ...asksOf(found, family, { runId: run.id, count: member.count }),
    ...early.map(({ run: part, count }): Asked => ({ code: 'step-out-of-order', params: { run: part.id, count } })),
  ]
  const enter = (firing: FiringDraft) => {
    for (const portion of found.portions) {
      emptyUnsaid(books, portion.run, id, happenedMin)
      const part = partOf(books, portion.run, portion.count, id)
      if (part.stage === 'clay') {
        const steps = clayStepIdsOf(books.designs.get(part.designId))
        part.doneStepIds.push(...steps.filter((step) => !part.doneStepIds.includes(step)))
      }
      if (part.stage === 'bisque' || part.stage === 'in bisque') {
        part.glazeId = member.glazeId
        part.glazedMin = happenedMin
      }
      putIn(firing, part)
    }
  }
  return { asks, enter }
}

const rankForBisque: Rank = ({ stage }) => (stage === 'drying' ? 0 : stage === 'clay' ? 1 : null)

/** Glazed as the member says, then glazed otherwise or bisque whose glazing was not ticked, then what was not unloaded. */
const rankForGlaze =
  ({ glazeId }: LoadMember): Rank =>
  (run) => {
    if (run.stage === 'glazed' || run.stage === 'refire') return glazeId === null || run.glazeId === glazeId ? 0 : 1
    return run.stage === 'bisque' ? 1 : run.stage === 'in bisque' ? 2 : null
  }

/** Bisque from the shelf becomes a run as it goes in, so that in a kiln every piece belongs to one. */
function readFromShelf(books: Books, taking: Taking, entryId: string, member: LoadMember, glaze: boolean) {
  const { piles, missing } = taking.fromShelf(
    glaze ? member.count : 0,
    ({ stage, designId }) => stage === 'bisque' && designId === member.designId,
  )
  const there = glaze ? member.count - missing : 0
  const asks: Asked[] =
    there < member.count
      ? [{ code: 'not-on-the-shelf', params: { design: member.designId, count: member.count, there } }]
      : []
  const enter = (firing: FiringDraft) => {
    for (const { pile, count } of piles) {
      pile.count -= count
      const id = freeId(books, `${entryId}/${member.designId}`)
      putIn(firing, addRun(books, { id, designId: member.designId, stage: 'glazed', count, glazeId: member.glazeId }))
    }
  }
  return { asks, enter }
}

function putIn(firing: FiringDraft, run: RunDraft): void {
  run.stage = firing.kind === 'glaze' ? 'in glaze' : 'in bisque'
  run.firingId = firing.id
  firing.runs.push(run)
  firing.members.push(memberOf(run, run.count))
}

function newFiring({ body, happenedMin }: EntryOf<'loaded'>): FiringDraft {
  return {
    id: body.firingId,
    kilnId: body.kilnId,
    kind: body.firingKind,
    scheduleId: body.scheduleId,
    members: [],
    loadedMin: happenedMin,
    firedMin: null,
    candleHours: 0,
    openedMin: null,
    unloadedMin: null,
    cones: [],
    readings: [],
    energyKwh: null,
    runs: [],
    lastUnloadId: null,
  }
}

function readSorted(books: Books, taking: Taking, firing: FiringDraft, member: SortedMember) {
  const { good, second, refire, lost } = member
  const total = good + second + refire + lost
  const asks: Asked[] = []
  const run = member.runId === null ? null : books.runs.get(member.runId)
  const none: Portions = { portions: [], missing: 0 }
  if (run === undefined)
    return { asks: [{ code: 'unknown-run', params: { run: member.runId! } } as const], member, found: none }
  if (![good, second, refire, lost].every((count) => count === 0 || isCount(count))) {
    return {
      asks: [{ code: 'count-does-not-add-up', params: { count: member.count, there: total } } as const],
      member,
      found: none,
    }
  }
  if (total !== member.count)
    asks.push({ code: 'count-does-not-add-up', params: { count: member.count, there: total } })
  const candidates = run ? familyOf(run) : firing.runs
  const found = taking.fromRuns(candidates, total, (part) => {
    const suits =
      run !== null || (part.designId === member.designId && (member.glazeId ?? part.glazeId) === part.glazeId)
    return part.firingId === firing.id && suits ? 0 : null
  })
  if (found.missing > 0) {
    const said = { firing: firing.id, design: member.designId, count: total, there: total - found.missing }
    asks.push({ code: found.portions.length > 0 ? 'more-than-there-are' : 'wrong-stage', params: said })
  }
  return { asks, member, found }
}

/** Deals the four sorts over the pieces found, good ones first: of pieces that were not there, nothing bad is believed. */
function sortOut(
  books: Books,
  { id, happenedMin }: EntryOf<'unloaded'>,
  member: SortedMember,
  { portions }: Portions,
): void {
  const left = { good: member.good, second: member.second, refire: member.refire, lost: member.lost }
  for (const { run, count } of portions) {
    const { designId, glazeId } = run
    const deal = (sort: keyof typeof left, most: number): number => {
      const dealt = Math.min(left[sort], most)
      left[sort] -= dealt
      return dealt
    }
    const good = deal('good', count)
    const second = deal('second', count - good)
    const refire = deal('refire', count - good - second)
    const bisque = run.stage === 'in bisque'
    loseFrom(books, run, deal('lost', count - good - second - refire), happenedMin, member.cause)
    putOnShelf(books, { designId, stage: 'second', glazeId, count: second })
    if (second > 0) takeOff(run, second)
    if (refire > 0) takeOut(partOf(books, run, refire, id), bisque ? 'drying' : 'refire')
    if (good === 0) continue
    if (bisque && member.runId === null) {
      putOnShelf(books, { designId, stage: 'bisque', glazeId: null, count: good })
      takeOff(run, good)
    } else takeOut(partOf(books, run, good, id), bisque ? 'bisque' : 'fired')
  }
}

function takeOut(run: RunDraft, stage: 'drying' | 'refire' | 'bisque' | 'fired'): void {
  run.stage = stage
  run.firingId = null
}

/**
 * Ware in hand that was never said to be out of its kiln is out, and good: the kiln has been emptied. What else was in it is
 * asked about at the end.
 */
export function emptyUnsaid(books: Books, { stage, firingId }: RunDraft, entryId: string, minute: Minute): void {
  const firing = inKiln(stage) && firingId !== null ? books.firings.get(firingId) : undefined
  if (!firing) return
  firing.unloadedMin ??= minute
  firing.lastUnloadId ??= entryId
}

function ofFiring(books: Books, firingId: string, write: (firing: FiringDraft) => void): Reading {
  const firing = books.firings.get(firingId)
  return firing ? { asks: [], write: () => write(firing) } : asking('unknown-firing', { firing: firingId })
}

/** Pieces that were loaded, and came out by no entry though their kiln was emptied. */
export function unsorted(firing: FiringDraft): {
  readonly count: number
  readonly entryId: string | null
  readonly minute: Minute | null
} {
  const inside =
    firing.unloadedMin === null
      ? []
      : firing.runs.filter(({ firingId, stage }) => firingId === firing.id && inKiln(stage))
  const count = [...new Set(inside)].reduce((sum, run) => sum + run.count, 0)
  return { count, entryId: firing.lastUnloadId, minute: firing.unloadedMin }
}
