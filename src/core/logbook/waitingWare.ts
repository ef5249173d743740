/** Ware that waits: where, under what, and how it was found to be. */
import type { Books, Reading, RunDraft } from './books.ts'
import { asking, inKiln, isAlive, waitFrom } from './books.ts'
import type { EntryOf } from './entry.ts'
import type { Waiting } from './state.ts'
import { familyOf } from './taking.ts'

export const readMoved = (books: Books, { body, happenedMin }: EntryOf<'moved'>): Reading =>
  ofWaiting(books, body.runId, (run) => changeWait(run, happenedMin, ({ cover }) => ({ cover, spotId: body.spotId })))

export const readCovered = (books: Books, { body, happenedMin }: EntryOf<'covered'>): Reading =>
  ofWaiting(books, body.runId, (run) => changeWait(run, happenedMin, ({ spotId }) => ({ cover: body.cover, spotId })))

export const readTurned = (books: Books, { body, happenedMin }: EntryOf<'turned'>): Reading =>
  ofWaiting(books, body.runId, (run) =>
    changeWait(run, happenedMin, ({ cover, spotId }) => ({ cover, spotId, turned: true })),
  )

export const readDampened = (books: Books, { body, happenedMin }: EntryOf<'dampened'>): Reading =>
  ofWaiting(books, body.runId, (run) => {
    run.dampenedMin.push(happenedMin)
    changeWait(run, happenedMin, ({ cover, spotId }) => ({ cover, spotId, dampened: true }))
  })

export const readWeighed = (books: Books, { body, happenedMin }: EntryOf<'weighed'>): Reading =>
  ofWaiting(books, body.runId, (run) => void run.weighed.push({ minute: happenedMin, massKg: body.massKg }))

export const readFelt = (books: Books, { body, happenedMin, roughMin }: EntryOf<'felt'>): Reading =>
  ofWaiting(books, body.runId, (run) => {
    run.felt.push({ minute: happenedMin, roughMin, stepId: body.stepId, verdict: body.verdict })
  })

export const readRuled = (books: Books, { body, happenedMin }: EntryOf<'ruled'>): Reading =>
  ofWaiting(books, body.runId, (run) => void run.ruled.push({ minute: happenedMin, lengthRatio: body.lengthRatio }))

export const readScrapDried = (books: Books, { body, happenedMin }: EntryOf<'scrap-dried'>): Reading => ({
  asks: [],
  write: () => void books.scraps.push({ clayId: body.clayId, moistureDb: body.moistureDb, minute: happenedMin }),
})

/** The run if it still is clay; else all of it that is, under other names. Of fired ware it is let pass: nothing depends on it. */
function ofWaiting(books: Books, runId: string, write: (run: RunDraft) => void): Reading {
  const run = books.runs.get(runId)
  if (!run) return asking('unknown-run', { run: runId })
  const family = familyOf(run)
  const waiting = waits(run) ? [run] : family.filter(waits)
  if (waiting.length === 0 && !family.some((part) => isAlive(part) && !inKiln(part.stage))) {
    return asking('wrong-stage', { run: runId })
  }
  return { asks: [], write: () => waiting.forEach(write) }
}

const waits = (run: RunDraft): boolean => isAlive(run) && (run.stage === 'clay' || run.stage === 'drying')

function changeWait(run: RunDraft, minute: number, change: (last: Waiting) => Omit<Waiting, 'fromMin'>): void {
  const last = run.waits.at(-1)
  if (last) waitFrom(run, minute, change(last))
}
